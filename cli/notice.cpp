#include <memory>

#include "coldtally/incident_work.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, place, text, by;
    std::optional<std::string> incident, at, no_hold;
    bool dry_run = false;
    FormOptions form;
};

int notice(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Zone zone = ledger.zone();
    const Instant at = options.at ? read_instant("--at", *options.at, zone, surroundings.now) : surroundings.now;
    Drafted drafted = step_draft(ledger,
                                 {options.incident,
                                  "noticed",
                                  options.text,
                                  options.by,
                                  options.place,
                                  std::nullopt,
                                  options.no_hold,
                                  false,
                                  {}},
                                 at, surroundings.now);
    const std::string name = std::get<Incident>(drafted.entries.front().fact).incident;
    ledger.post(drafted, surroundings.now, options.dry_run);
    const std::string held = options.no_hold ? "NOT PUT ON HOLD, because: " + *options.no_hold : drafted.filled.front();
    if (options.dry_run) {
        surroundings.out.write("would open incident " + name + " (" + held + "); nothing was written\n");
        for (const auto& open : open_beside(ledger, name, options.place, surroundings.now))
            surroundings.out.write("NOTE: " + open + "\n");
        return done;
    }
    const IncidentAnswer answer = ledger.incident(name, std::nullopt, {}, surroundings.now);
    if (options.form.format == "table") {
        const auto number = [&](const Entry& entry) { return std::to_string(entry.number); };
        std::string holds;
        if (drafted.entries.size() > 1)
            holds = drafted.entries.size() == 2
                        ? " (entry " + number(drafted.entries[1]) + ")"
                        : " (entries " + number(drafted.entries[1]) + " to " + number(drafted.entries.back()) + ")";
        surroundings.out.write(
            "Incident " + name + ", entry " + number(drafted.entries.front()) + ": " + held + holds +
            "\nNow: mark the doses DO NOT USE and keep them in range; throw nothing away. Note what "
            "the display shows (coldtally check)" +
            (options.no_hold ? ":\nthe doses are on no hold: the words IN DOUBT alone keep them from use.\n" : ".\n"));
        for (const auto& open : open_beside(ledger, name, options.place, surroundings.now))
            surroundings.out.write("NOTE: " + open +
                                   ". If this belongs to it, take this entry back, and the holds: coldtally takeback " +
                                   number(drafted.entries.front()) + " 'belongs to another incident'\n");
        surroundings.out.write("\n");
    }
    if (options.form.format == "json")  // of which the answer is the incident alone
        for (const auto& warning : drafted.warnings) say_on_standard_error("WARNING: " + warning);
    surroundings.out.write(options.form.format == "json"
                               ? to_json(answer)
                               : to_table(answer, table_style(options.form, ledger, zone, surroundings)));
    return done;
}

}  // namespace

void add_notice(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "notice", "Opens an incident, and says at once what is to be done and which doses were given since");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option("--place", options->place, "the place it was noticed in")->required();
    command->add_option("--text", options->text, "what was found")->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--incident", options->incident, "its name; not given: the next number of the year");
    command->add_option("--at", options->at, "when it was noticed; not given: now");
    command->add_option("--no-hold", options->no_hold,
                        "leaves the doses in the place off hold, and says why; kept as a note");
    command->add_flag("--dry-run", options->dry_run, "checks everything and writes nothing");
    add_form_options(*command, options->form);
    command->footer(
        folded("Puts every lot that has doses in the place then on hold, until guidance lifts it, or closing the "
               "incident where nothing was out of range. Excursions of the place that lasted then, or ended not long "
               "before, belong to the incident; so do those that begin before it is closed.") +
        "\n\n" +
        help_end("coldtally notice clinic.ledger --place main --text 'door not latched, display 12.6' --by ab"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return notice(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
