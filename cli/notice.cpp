#include <memory>

#include "coldtally/work.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, place, text, by;
    std::optional<std::string> incident, at, since, no_hold;
    bool dry_run = false;
    FormOptions form;
};

int notice(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Zone zone = ledger.zone();
    const Instant at = options.at ? read_instant("--at", *options.at, zone, surroundings.now) : surroundings.now;
    StepRequest request{options.incident, IncidentStep::noticed, options.text, options.by,
                        options.place,    std::nullopt,          options.no_hold, false,        std::nullopt};
    if (options.since) request.since = read_instant("--since", *options.since, zone, surroundings.now);
    const StepDone noticed = Work(ledger, surroundings.now).step(request, at, options.dry_run);
    if (options.form.format == "json") {  // of which the answer is the incident alone
        for (const auto& warning : noticed.posted.what.warnings)
            say_on_standard_error("WARNING: " + surroundings.book.say(warning));
        surroundings.out.write(to_json(noticed));
    } else {
        surroundings.out.write(to_table(noticed, table_style(options.form, ledger, zone, surroundings)));
    }
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
    command->add_option("--since", options->since,
                        "since when it was out of range, where that was read only now, and it ended long before");
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
