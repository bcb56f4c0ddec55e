#include <memory>

#include "coldtally/ledger.hpp"
#include "files.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, file;
    bool dry_run = false;
};

int post(const Options& options, const Surroundings& surroundings) {
    const std::string lines = read_file(options.file);
    Ledger ledger(options.ledger, Ledger::Mode::create);
    std::vector<Remark> warnings;
    for (const EntryNumber number : ledger.post(lines, surroundings.now, options.dry_run, &warnings))
        surroundings.out.write("{\"entry\": " + std::to_string(number) + "}\n");
    for (const auto& warning : warnings) say_on_standard_error("WARNING: " + surroundings.book.say(warning));
    return done;
}

}  // namespace

void add_post(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("post", "Posts entries, all of a file or none");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger, "the ledger's file; made where the first entry is a site");
    command->add_option("FILE", options->file, "entries as JSON Lines; -: standard input")->required();
    command->add_flag("--dry-run", options->dry_run, "checks everything and writes nothing");
    command->footer(
        "Prints a line {\"entry\": n} for each entry. What a careful person wants to know of them goes to standard "
        "error, a line each; it refuses nothing.\n\n" +
        help_end("coldtally post clinic.ledger today.jsonl"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return post(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
