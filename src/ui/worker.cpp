#include "ui/worker.h"

#include <utility>

namespace dryfit::ui {

Worker::Worker(Load load, std::function<void()> ready)
    : load_(std::move(load)), ready_(std::move(ready)), thread_([this] { run(); }) {}

Worker::~Worker() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  wakeUp_.notify_one();
  thread_.join();
}

void Worker::ask(const std::string& path) {
  {
    const std::lock_guard lock(mutex_);
    wish_ = path;
    done_.reset();
  }
  wakeUp_.notify_one();
}

std::optional<Result<std::shared_ptr<const Model>>> Worker::take() {
  const std::lock_guard lock(mutex_);
  return std::exchange(done_, std::nullopt);
}

bool Worker::busy() const {
  const std::lock_guard lock(mutex_);
  return working_ || wish_;
}

void Worker::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    wakeUp_.wait(lock, [&] { return ending_ || wish_; });
    if (ending_) return;
    const std::string path = *std::exchange(wish_, std::nullopt);
    working_ = true;
    lock.unlock();
    auto found = load_(path);
    lock.lock();
    working_ = false;
    if (ending_) return;
    if (wish_) continue;  // superseded
    done_ = std::move(found);
    lock.unlock();
    ready_();
    lock.lock();
  }
}

}  // namespace dryfit::ui
