#include <memory>

#include "options.hpp"
#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, incident, step, text, by;
    std::optional<std::string> at, place, no_hold, despite;
    std::vector<std::string> told;
    bool release = false, dry_run = false;
    FormOptions form;
};

int step(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Instant at =
        options.at ? read_instant("--at", *options.at, ledger.zone(), surroundings.now) : surroundings.now;
    std::vector<EntryNumber> told;
    for (const auto& entry : options.told) told.push_back(read_number("--told", entry));
    const StepRequest request{options.incident, incident_step_of(options.step), options.text, options.by,
                              options.place,    std::nullopt,                   options.no_hold, options.release,
                              options.despite,  told};
    const StepDone stepped = Work(ledger, surroundings.now).step(request, at, options.dry_run);
    surroundings.out.write(options.form.format == "json"
                               ? to_json(stepped)
                               : to_table(stepped, table_style(options.form, ledger, ledger.zone(), surroundings)));
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
    add_form_options(*command, options->form);
    command->footer(help_end("coldtally step clinic.ledger 2026-1 'supervisor told' --text 'by telephone' --by ab"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return step(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
