#include <memory>

#include "coldtally/incident_work.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, incident, step, text, by;
    std::optional<std::string> at, place;
    bool dry_run = false;
};

int step(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    ledger.incident(options.incident, std::nullopt, {}, surroundings.now);  // a name typed wrong must not open another
    Entry entry;
    entry.at = options.at ? read_instant("--at", *options.at, ledger.zone(), surroundings.now) : surroundings.now;
    entry.by = options.by;
    entry.fact = Incident{options.incident, options.step, options.text, options.place};
    const auto numbers = ledger.post(std::vector<Entry>{entry}, surroundings.now, options.dry_run);
    if (options.step == "closed")
        for (const auto& line : still_open(ledger, options.incident, surroundings.now)) surroundings.out.write("STILL OPEN: " + line + "\n");
    surroundings.out.write("incident " + options.incident + ": " + options.step + (options.dry_run ? "; nothing was written\n" : ", entry " + std::to_string(numbers.front()) + "\n"));
    return done;
}

}  // namespace

void add_step(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("step", "Writes down a step of an incident: who was told, the cause, what was done, that it is closed");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option("INCIDENT", options->incident, "the incident's name")->required();
    command->add_option("STEP", options->step, "what was done")
        ->required()
        ->check(CLI::IsMember({"supervisor told", "health department told", "manufacturer told", "cause", "action", "closed"}));
    command->add_option("--text", options->text, "in words")->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--at", options->at, "when; not given: now");
    command->add_option("--place", options->place, "a further place that the incident is of");
    command->add_flag("--dry-run", options->dry_run, "checks everything and writes nothing");
    command->footer(help_end("coldtally step clinic.ledger 2026-1 'supervisor told' --text 'by telephone' --by ab"));
    command->callback([options, &run] { run = [options](const Surroundings& surroundings) { return step(*options, surroundings); }; });
}

}  // namespace coldtally::cli
