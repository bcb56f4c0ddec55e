#include <memory>

#include "coldtally/incident_work.hpp"
#include "options.hpp"
#include "work.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, incident, step, text, by;
    std::optional<std::string> at, place, no_hold, despite;
    std::vector<std::string> told;
    bool release = false, dry_run = false;
};

int step(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Instant at =
        options.at ? read_instant("--at", *options.at, ledger.zone(), surroundings.now) : surroundings.now;
    std::vector<EntryNumber> told;
    for (const auto& entry : options.told) told.push_back(read_number("--told", entry));
    Drafted drafted = step_draft(ledger,
                                 {options.incident, options.step, options.text, options.by, options.place, std::nullopt,
                                  options.no_hold, options.release, options.despite, told},
                                 at, surroundings.now);
    ledger.post(drafted, surroundings.now, options.dry_run);
    for (const auto& warning : drafted.warnings)
        surroundings.out.write((options.step == "closed" ? "STILL OPEN: " : "WARNING: ") + warning + "\n");
    if (options.step == "closed")
        for (const auto& line : still_open(ledger, options.incident, surroundings.now))
            surroundings.out.write("STILL OPEN: " + line + "\n");
    for (const auto& entry : drafted.entries) {
        const std::string what = std::holds_alternative<Incident>(entry.fact)
                                     ? "incident " + options.incident + ": " + options.step
                                     : entry_words(entry, ledger.zone());
        surroundings.out.write(what + (options.dry_run ? ": would be noted; nothing was written\n"
                                                       : ", entry " + std::to_string(entry.number) + "\n"));
    }
    return done;
}

}  // namespace

void add_step(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "step", "Writes down a step of an incident: who was told, the cause, what was done, that it is closed");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option("INCIDENT", options->incident, "the incident's name")->required();
    command->add_option("STEP", options->step, "what was done")
        ->required()
        ->check(CLI::IsMember(
            {"supervisor told", "health department told", "manufacturer told", "cause", "action", "closed"}));
    command->add_option("--text", options->text, "in words")->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--at", options->at, "when; not given: now");
    command->add_option("--place", options->place,
                        "a further place that the incident is of: its doses are put on hold");
    command->add_option("--no-hold", options->no_hold,
                        "with --place: leaves its doses off hold, and says why; kept as a note");
    command->add_flag("--release", options->release,
                      "with closed: takes back the holds that came with the notice, where all of the time in doubt is "
                      "known and nothing was out of range");
    command->add_option(
        "--despite", options->despite,
        "with closed: why it is closed though doses that stood in its time in doubt are on no hold and no "
        "answer covers them; kept as a note");
    command
        ->add_option("--told", options->told,
                     "the entry of a transfer or return: who has those doses was told by this; once for each. Without "
                     "it nobody counts as told, whatever the text says")
        ->allow_extra_args(false);
    command->add_flag("--dry-run", options->dry_run, "checks everything and writes nothing");
    command->footer(help_end("coldtally step clinic.ledger 2026-1 'supervisor told' --text 'by telephone' --by ab"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return step(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
