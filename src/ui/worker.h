// Loads works on a thread of its own; what comes of it is handed over whole. A newer wish supersedes those
// that wait; one that is under way is let finish and then forgotten.
#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "ui/model.h"

namespace dryfit::ui {

class Worker {
 public:
  /// `ready` is called on the thread when something can be taken.
  Worker(Load load, std::function<void()> ready);
  ~Worker();  ///< waits for what is under way
  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  void ask(const std::string& path);
  /// Once for each wish that was not superseded.
  std::optional<Result<std::shared_ptr<const Model>>> take();
  bool busy() const;

 private:
  void run();

  Load load_;
  std::function<void()> ready_;
  mutable std::mutex mutex_;
  std::condition_variable wakeUp_;
  std::optional<std::string> wish_;
  std::optional<Result<std::shared_ptr<const Model>>> done_;
  bool working_ = false, ending_ = false;
  std::thread thread_;  ///< last: starts when all else is there
};

}  // namespace dryfit::ui
