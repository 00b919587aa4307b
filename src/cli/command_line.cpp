#include "cli/command_line.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>
#include <sstream>

#include "base/text.h"
#include "cli/help.h"

namespace dryfit::cli {

namespace {

Outcome badLine(const std::string& message, const std::string& hint) {
  return failed({Diagnostic{Fault::BadInput, "", message, hint, {}}});
}

/// What the command line was read into. CLI11 keeps references to `arguments`.
struct Reader {
  CLI::App app{"", "dryfit"};
  Arguments arguments;

  Reader() {
    app.set_help_flag("-h,--help");
    app.set_version_flag("--version", versionLine());
    app.require_subcommand(1);
    for (const Command* command : commands()) add(*command);
  }

  void add(const Command& command) {
    CLI::App& sub = *app.add_subcommand(command.name);
    sub.allow_extras();  // told in our own words
    sub.set_help_flag("-h,--help");
    sub.add_option(command.about, arguments.file)->required(command.aboutNeeded);
    if (!command.second.empty()) sub.add_option(command.second, arguments.key);
    for (const OptionSpec& option : command.options) addOption(sub, option)->required(option.needed);
  }

  CLI::Option* addOption(CLI::App& sub, const OptionSpec& option) {
    if (option.flag) return sub.add_flag(option.names, arguments.*option.flag)->disable_flag_override();
    if (option.text) return sub.add_option(option.names, arguments.*option.text);
    CLI::Option* list = sub.add_option(option.names, arguments.*option.texts);
    return option.atOnce > 1 ? list->expected(option.atOnce) : list->allow_extra_args(false);
  }

  /// The command that the line named; null when it named none.
  const Command* command() const {
    for (const CLI::App* sub : app.get_subcommands())
      for (const Command* known : commands())
        if (known->name == sub->get_name()) return known;
    return nullptr;
  }
};

std::vector<std::string> optionNames(const Command* command) {
  std::vector<std::string> out;
  if (command) {
    for (const OptionSpec& option : command->options) {
      std::istringstream names(option.names);
      for (std::string name; std::getline(names, name, ',');) out.push_back(name);
    }
  } else {
    out.push_back("--version");
  }
  out.push_back("--help");
  return out;
}

std::vector<std::string> commandNames() {
  std::vector<std::string> out;
  for (const Command* command : commands()) out.push_back(command->name);
  return out;
}

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

/// "did you mean --json? Options: ..." with the guess only where there is one.
std::string allowed(const std::string& what, const std::string& given,
                    const std::vector<std::string>& names) {
  const auto guess = nearestName(given, names);
  return (guess ? "did you mean " + *guess + "? " : std::string()) + what + ": " + listed(names);
}

bool looksLikeOption(const std::string& word) {
  return word.size() > 1 && word[0] == '-';
}

Outcome unknownOption(const Command* command, const std::string& given) {
  const std::string name = given.substr(0, given.find('='));
  const std::string of = command ? "options of dryfit " + command->name : "options of dryfit";
  return badLine("there is no option " + dryfit::quoted(name), allowed(of, name, optionNames(command)));
}

Outcome tooMuch(const Command& command, const std::string& given) {
  if (looksLikeOption(given)) return unknownOption(&command, given);
  return badLine(dryfit::quoted(given) + " is one file too many for " + command.name,
                 "use: " + useLine(command));
}

/// The first word decides before CLI11 sees the line: its own words for a wrong command help nobody.
std::optional<Outcome> wrongStart(const std::vector<std::string>& words) {
  const auto names = commandNames();
  if (words.empty())
    return badLine("no command given", "commands: " + listed(names) + "; dryfit --help tells more");
  const std::string& first = words.front();
  if (first == "-h" || first == "--help" || first == "--version") return {};
  if (looksLikeOption(first)) return unknownOption(nullptr, first);
  if (std::find(names.begin(), names.end(), first) != names.end()) return {};
  return badLine("there is no command " + dryfit::quoted(first), allowed("commands", first, names));
}

std::string briefName(const OptionSpec& option) {
  return option.names.substr(0, option.names.find(','));
}

/// A value missing, one too many, or given to a flag.
std::string misused(const OptionSpec& option, const std::string& error) {
  if (option.flag) return briefName(option) + " takes no value";
  if (error.find("missing") != std::string::npos || option.atOnce > 1)
    return briefName(option) + " needs " + option.value + " after it";
  return briefName(option) + " may be given only once";
}

/// What CLI11 found wrong, in words that say what to write instead.
Outcome explained(const Command* command, const CLI::ParseError& error) {
  if (!command) return badLine("the command line cannot be read", error.what());
  const std::string use = "use: " + useLine(*command), what = error.what();
  const bool missing = dynamic_cast<const CLI::RequiredError*>(&error);
  if (missing && what.rfind(command->about, 0) == 0)
    return badLine(
        command->name + " needs the name of a " + (command->about == "FILE" ? "work file" : "file to write"),
        use);
  for (const OptionSpec& option : command->options) {
    const std::string longName = option.names.substr(option.names.rfind("--") + 2);
    if (what.find(longName) == std::string::npos) continue;
    if (missing) return badLine(command->name + " needs " + briefName(option) + " " + option.value, use);
    return badLine(misused(option, what), use);
  }
  return badLine(what, use);
}

/// An option given with nothing: `-o ""`.
bool leftEmpty(const OptionSpec& option, const Reader& reader) {
  const CLI::App& sub = *reader.app.get_subcommands().front();
  if (option.flag || sub.count(option.names.substr(option.names.rfind("--"))) == 0) return false;
  if (option.text) return (reader.arguments.*option.text).empty();
  const auto& values = reader.arguments.*option.texts;
  return std::find(values.begin(), values.end(), "") != values.end();
}

Outcome run(const Reader& reader) {
  const Command& command = *reader.command();
  for (const OptionSpec& option : command.options)
    if (leftEmpty(option, reader))
      return badLine(briefName(option) + " needs " + option.value + ", not an empty word",
                     "use: " + useLine(command));
  return command.run(reader.arguments);
}

}  // namespace

Outcome runCommandLine(const std::vector<std::string>& words) {
  if (auto wrong = wrongStart(words)) return *wrong;
  Reader reader;
  std::optional<Outcome> stopped;
  try {
    reader.app.parse(std::vector<std::string>(words.rbegin(), words.rend()));  // CLI11 reads from the back
  } catch (const CLI::CallForHelp&) {
    return {reader.command() ? commandPage(*reader.command()) : programPage(), 0, {}};
  } catch (const CLI::CallForVersion&) {
    return {versionLine(), 0, {}};
  } catch (const CLI::ParseError& error) {
    stopped = explained(reader.command(), error);
  }
  // A word too many tells more than the thing it may have been meant for.
  const Command* command = reader.command();
  const auto rest = reader.app.remaining(true);
  if (command && !rest.empty()) return tooMuch(*command, rest.front());
  if (stopped) return *stopped;
  return run(reader);
}

}  // namespace dryfit::cli
