#include <memory>

#include "coldtally/error.hpp"
#include "commands.hpp"

namespace coldtally::cli {

namespace {

int help(const std::vector<std::string>& words, const Surroundings& surroundings) {
    std::string said;
    for (const auto& word : words) said += (said.empty() ? "" : " ") + word;
    if (words.empty()) {
        surroundings.out.write(overview());
    } else if (const Command* command = find_command(said)) {
        surroundings.out.write(page_of(*command));
    } else if (const auto found = commands_for(said); !found.empty()) {
        surroundings.out.write(shown(found));
    } else {
        throw Error(Code::bad_value, "\"" + said + "\": no command is known by these words" + meant_words(said) +
                                         " (coldtally --help names all commands)");
    }
    return done;
}

}  // namespace

void add_help(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("help", "Finds the command for what is to be done, in everyday words");
    const auto words = std::make_shared<std::vector<std::string>>();
    command->add_option("WORD", *words,
                        "everyday words, such as undo, borrow, open vial; of a command: its page; not given: all "
                        "commands");
    command->footer(folded("Capital letters, plurals and small words make no difference. Words that lead nowhere are "
                           "refused, with those that are spelled nearly so.") +
                    "\n\n" + help_end("coldtally help power failure"));
    command->callback(
        [words, &run] { run = [words](const Surroundings& surroundings) { return help(*words, surroundings); }; });
}

}  // namespace coldtally::cli
