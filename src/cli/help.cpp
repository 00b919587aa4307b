#include "cli/help.h"

#include <sstream>

#include "cli/table.h"

namespace dryfit::cli {

namespace {

constexpr int kIndent = 4;
constexpr int kColumn = 24;  // where explanations begin
constexpr size_t kMostInUseLine = 4;

std::string section(const std::string& title, const std::string& body) {
  return "\n" + title + "\n" + body;
}

/// "  -o, --output OUT.step" and its explanation hanging in the second column.
std::string entry(const std::string& head, const std::string& about) {
  std::string body = wrapped(about, kColumn);
  const std::string start = std::string(kIndent, ' ') + head;
  if (lettersIn(start) + 2 > kColumn) return start + "\n" + body;
  return start + body.substr(lettersIn(start));
}

std::string spacedNames(const OptionSpec& option) {
  std::string out;
  for (const char c : option.names) out += c == ',' ? std::string(", ") : std::string(1, c);
  return option.value.empty() ? out : out + " " + option.value;
}

/// The short way of writing an option: "-o OUT.step".
std::string briefly(const OptionSpec& option) {
  const std::string name = option.names.substr(0, option.names.find(','));
  return option.value.empty() ? name : name + " " + option.value;
}

std::string paragraphs(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : "\n") + wrapped(text, kIndent);
  return out;
}

std::string statuses(const std::string& one) {
  return entry("0", "all is well") + entry("1", one) +
         entry("2", "the work file or the command line is wrong; nothing was written") +
         entry("3", "the system failed: disk, memory, graphics");
}

/// Examples keep their lines.
std::string indented(const std::string& text) {
  std::istringstream in(text);
  std::string out, line;
  while (std::getline(in, line)) out += line.empty() ? "\n" : std::string(kIndent, ' ') + line + "\n";
  return out;
}

}  // namespace

std::string wrapped(const std::string& paragraph, int indent, int width) {
  std::istringstream in(paragraph);
  const std::string margin(static_cast<size_t>(indent), ' ');
  std::string out, line = margin, word;
  while (in >> word) {
    const bool first = line.size() == margin.size();
    if (!first && lettersIn(line) + 1 + lettersIn(word) > width) {
      out += line + "\n";
      line = margin + word;
    } else {
      line += (first ? "" : " ") + word;
    }
  }
  return out + line + "\n";
}

std::string versionLine() {
  return "dryfit " DRYFIT_VERSION "\n";
}

std::string useLine(const Command& command) {
  std::string out = "dryfit " + command.name;
  size_t more = 0;
  for (const OptionSpec& option : command.options) {
    if (option.needed) out += " " + briefly(option);
    more += !option.needed;
  }
  if (more > kMostInUseLine) out += " [options]";
  for (const OptionSpec& option : command.options)
    if (!option.needed && more <= kMostInUseLine) out += " [" + briefly(option) + "]";
  out += " " + (command.aboutNeeded ? command.about : "[" + command.about + "]");
  return command.second.empty() ? out : out + " [" + command.second + "]";
}

std::string commandPage(const Command& command) {
  const Page& page = command.page;
  std::string options;
  for (const OptionSpec& option : command.options) options += entry(spacedNames(option), option.about);
  options += entry("-h, --help", "print this page");
  return "dryfit " + command.name + " - " + page.line + "\n" + section("Use", indented(useLine(command))) +
         section("What it does", paragraphs(page.about)) + section("Options", options) +
         section("What it prints", paragraphs(page.prints)) + section("Exit status", statuses(page.one)) +
         section("Example", indented(page.example));
}

std::string programPage() {
  std::string list;
  for (const Command* command : commands()) list += entry(command->name, command->page.line);
  return "dryfit - sets out framed joinery, fits it, and finds the order of work\n" +
         section("Use", indented("dryfit COMMAND [options] FILE\ndryfit COMMAND --help")) +
         section(
             "What it does",
             paragraphs(
                 {"Reads a piece of framed joinery from a small text file (TOML): its members, the joints "
                  "between them, the units they are put together in. Cuts every piece as an exact solid, "
                  "checks that the pieces fit, finds the order in which they can go together, writes "
                  "the solids for other CAD, and draws pictures of it all.",
                  "To dry-fit is to put the joints together without glue, to see that they go."})) +
         section("Commands", list) +
         section("Options",
                 entry("-h, --help", "print this page") + entry("--version", "print the version")) +
         section("Exit status",
                 statuses("the work has a fault: it does not fit, or cannot be put together")) +
         section(
             "Example",
             indented("$ dryfit fit assets/works/practice-corner.toml\n$ dryfit order --json corner.toml > "
                      "order.json\n$ dryfit step -o corner.step corner.toml"));
}

}  // namespace dryfit::cli
