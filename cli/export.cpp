#include <memory>

#include "coldtally/ledger.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger;
};

int export_entries(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    ledger.for_each_entry([&](const Entry& entry) { surroundings.out.write(to_json(entry) + "\n"); });
    return done;
}

}  // namespace

void add_export(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("export", "Prints every entry as JSON Lines, in the order of posting");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->footer("A replay of it is a ledger with the same answers.\n\n" +
                    help_end("coldtally export clinic.ledger > entries.jsonl"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return export_entries(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
