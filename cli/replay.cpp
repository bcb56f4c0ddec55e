#include <memory>

#include "coldtally/ledger.hpp"
#include "files.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, file;
};

int replay(const Options& options, const Surroundings& surroundings) {
    const std::string lines = read_file(options.file);
    Ledger ledger(options.ledger, Ledger::Mode::create);
    for (const EntryNumber number : ledger.replay(lines))
        surroundings.out.write("{\"entry\": " + std::to_string(number) + "}\n");
    return done;
}

}  // namespace

void add_replay(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("replay", "Fills a new ledger from exported entries");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger, "the file to make; it must not be a ledger yet");
    command->add_option("FILE", options->file, "entries as export prints them; -: standard input")->required();
    command->footer("The entries keep their numbers and the instants at which they were recorded.\n\n" +
                    help_end("coldtally replay copy.ledger entries.jsonl"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return replay(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
