#include <memory>

#include "coldtally/incident_work.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, place, text, by;
    std::optional<std::string> incident, at;
    bool dry_run = false;
    FormOptions form;
};

int notice(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Zone zone = ledger.zone();
    Entry entry;
    entry.at = options.at ? read_instant("--at", *options.at, zone, surroundings.now) : surroundings.now;
    entry.by = options.by;
    const std::string name = new_incident(ledger, options.incident, *entry.at, surroundings.now);
    entry.fact = Incident{name, "noticed", options.text, options.place};
    const auto numbers = ledger.post(std::vector<Entry>{entry}, surroundings.now, options.dry_run);
    if (options.dry_run) {
        surroundings.out.write("would open incident " + name + "; nothing was written\n");
        return done;
    }
    const IncidentAnswer answer = ledger.incident(name, std::nullopt, {}, surroundings.now);
    if (options.form.format == "table") {
        surroundings.out.write("Incident " + name + ", entry " + std::to_string(numbers.front()) + "\nNow: mark the doses DO NOT USE and keep them in range; throw nothing away. Note what the display shows (coldtally check):\nthe lists judge by readings, and know of no alarm.\n");
        for (const auto& open : open_beside(ledger, name, options.place, surroundings.now)) surroundings.out.write("NOTE: " + open + ". If this belongs to it, take this entry back: coldtally takeback " + std::to_string(numbers.front()) + " 'belongs to another incident'\n");
        surroundings.out.write("\n");
    }
    surroundings.out.write(options.form.format == "json" ? to_json(answer) : to_table(answer, table_style(options.form, ledger, zone, surroundings)));
    return done;
}

}  // namespace

void add_notice(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("notice", "Opens an incident, and says at once what is to be done and which doses were given since");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option("--place", options->place, "the place it was noticed in")->required();
    command->add_option("--text", options->text, "what was found")->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--incident", options->incident, "its name; not given: the next number of the year");
    command->add_option("--at", options->at, "when it was noticed; not given: now");
    command->add_flag("--dry-run", options->dry_run, "checks everything and writes nothing");
    add_form_options(*command, options->form);
    command->footer(folded("Excursions of the place that lasted then, or ended not long before, belong to the incident; so do those that begin before it is closed.") + "\n\n" +
                    help_end("coldtally notice clinic.ledger --place main --text 'door not latched, display 12.6' --by ab"));
    command->callback([options, &run] { run = [options](const Surroundings& surroundings) { return notice(*options, surroundings); }; });
}

}  // namespace coldtally::cli
