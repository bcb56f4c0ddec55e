#include <memory>

#include "coldtally/work.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, incident, to, recipient, by;
    std::optional<std::string> at, reference, text;
    bool uncounted = false, patients = false, dry_run = false;
    FormOptions form;
};

int report(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Zone zone = ledger.zone();
    const Instant at = options.at ? read_instant("--at", *options.at, zone, surroundings.now) : surroundings.now;
    const ReportRequest request{options.incident,  recipient_of(options.to), options.recipient, options.by,
                                options.reference, options.text,             options.uncounted};
    const ReportDone reported =
        Work(ledger, surroundings.now).report(request, at, options.patients, options.dry_run);
    surroundings.out.write(options.form.format == "json"
                               ? to_json(reported)
                               : to_table(reported, table_style(options.form, ledger, zone, surroundings)));
    return done;
}

}  // namespace

void add_report(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "report", "Writes down that an incident was reported, with the figures that were told, and prints them");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option("INCIDENT", options->incident, "the incident's name")->required();
    command->add_option("--to", options->to, "supervisor, health department or manufacturer")
        ->required()
        ->check(CLI::IsMember({"supervisor", "health department", "manufacturer"}));
    command
        ->add_option("--recipient", options->recipient,
                     "their name; of a manufacturer as its maker entries state it: only its products are told of")
        ->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--at", options->at, "when it was sent, and the instant of the figures; not given: now");
    command->add_option("--reference", options->reference, "their case number");
    command->add_option("--text", options->text, "in words");
    command->add_flag("--uncounted", options->uncounted, "the doses were not counted first; the report says so");
    command->add_flag("--patients", options->patients, "prints the tokens of the patients, who are a number otherwise");
    command->add_flag("--dry-run", options->dry_run, "checks everything and writes nothing");
    add_form_options(*command, options->form);
    command->footer(help_end(
        "coldtally report clinic.ledger 2026-1 --to 'health department' --recipient 'County Programme' --by ab"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return report(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
