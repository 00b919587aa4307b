// A command of the program: its page in the manual, its options and what it does. One file a command; nothing
// here prints or exits, so that tests can run a command and look at what came out.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "cli/picture_words.h"

namespace dryfit::cli {

/// Everything a command line may say.
struct Arguments : PictureWords {
  std::string file;  ///< the work file, or what else the command is about
  bool json = false;
  bool byShape = false;
  std::vector<std::string> why;  ///< two things of the work
  std::string out;               ///< path of the file to write
  std::string only;              ///< beginning of piece ids
  std::string moves;             ///< path of the file with somebody's own order
  std::string key;               ///< a second operand: a key, or how keys begin
  bool markdown = false;
  bool prove = false;
  std::string samples, steps;  ///< of the proof, as typed
};

struct OptionSpec {
  std::string names;  ///< as typed: "-o,--output"
  std::string value;  ///< what stands for its value on the page; empty for a flag
  std::string about;
  bool needed = false;
  bool Arguments::*flag = nullptr;         ///< where a flag goes
  std::string Arguments::*text = nullptr;  ///< where a value goes
  /// Where values go of an option that may be given again.
  std::vector<std::string> Arguments::*texts = nullptr;
  int atOnce = 1;  ///< values after it; more than one: it may not be given again
};

/// What a command came to.
struct Outcome {
  std::string out;  ///< for standard output
  int status = 0;
  std::vector<Diagnostic> faults;  ///< for standard error
};
/// Nothing printed, the status by the first fault.
Outcome failed(std::vector<Diagnostic> faults);

/// The parts of a page that only the command knows. Paragraphs are wrapped; examples stand as they are.
struct Page {
  std::string line;  ///< one line, beginning small, without a stop
  std::vector<std::string> about;
  std::vector<std::string> prints;
  std::string one;  ///< when the exit status is 1
  std::string example;
};

struct Command {
  std::string name;
  Page page;
  std::vector<OptionSpec> options;
  Outcome (*run)(const Arguments&);
  std::string about = "FILE";  ///< what stands for its one operand
  bool aboutNeeded = true;
  std::string second{};  ///< what stands for an operand that may follow; empty: none may
};

OptionSpec jsonOption();

const Command& piecesCommand();
const Command& fitCommand();
const Command& blocksCommand();
const Command& orderCommand();
const Command& tryCommand();
const Command& stepCommand();
const Command& pictureCommand();
const Command& stepsCommand();
const Command& explainCommand();
const Command& jointsCommand();
const Command& cardCommand();
const Command& rulesCommand();
const Command& viewCommand();
const Command& keysCommand();
const Command& newCommand();
/// All of them, in the manual's order.
const std::vector<const Command*>& commands();

}  // namespace dryfit::cli
