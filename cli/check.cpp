#include "work.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string place, temperature;
    std::optional<std::string> min, max, probe;
};

std::string holding_words(const HoldingKey& k) { return k.product + " lot " + k.lot; }

/// Which incident the excursion belongs to that this check tells of, and the doses given in the time in doubt.
void add_incidents(const Ledger& ledger, Drafted& drafted, const Surroundings& surroundings) {
    if (drafted.next_steps.empty()) return;  // in range
    const Entry& entry = drafted.entries.front();
    const std::string& place = std::get<Check>(entry.fact).place;
    const auto found = ledger.incidents(place, std::nullopt, *entry.at, *entry.at + Duration(1), {}, surroundings.now);
    std::vector<std::string> steps;
    for (const auto& row : found.incidents) {
        if (row.excursions.empty()) continue;
        const IncidentAnswer incident = ledger.incident(row.incident, std::nullopt, {}, surroundings.now);
        std::string given;
        for (const auto& dose : incident.given) given += (given.empty() ? "" : "; ") + ("entry " + std::to_string(dose.entry)) + ", patient " + dose.patient + ", " + holding_words(dose.holding);
        steps.push_back("The excursion belongs to incident " + row.incident + (row.closed ? ", which was closed" : "") + ". " + (given.empty() ? std::string("No dose was given since the last good reading.") : "Given since the last good reading: " + given + ".") + " All of it: coldtally incident LEDGER " + row.incident);
    }
    if (!found.without_incident.empty())
        steps.push_back("No incident is open for this excursion. Open one, and see at once the doses given since the last good reading: coldtally notice LEDGER --place " + place + " --text 'WHAT WAS FOUND' --by " + entry.by);
    drafted.next_steps.insert(drafted.next_steps.begin() + 1, steps.begin(), steps.end());
}

int check(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("check", options);
    fields["place"] = options.place;
    put(fields, "probe", options.probe);
    put_temperature(fields, "temperature", options.temperature);
    if (options.min) put_temperature(fields, "min", *options.min);
    if (options.max) put_temperature(fields, "max", *options.max);
    Ledger ledger(options.ledger, Ledger::Mode::write);
    return post_drafted(ledger, ledger.draft(fields.dump(), surroundings.now), options, surroundings, [&](Drafted& drafted) { add_incidents(ledger, drafted, surroundings); });
}

}  // namespace

void add_check(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "check", "Notes a temperature read from a place", check, options, "coldtally check main 4.2 --min 3.1 --max 6.0");
    command->add_option("PLACE", options->place, "the place's id")->required();
    command->add_option("TEMPERATURE", options->temperature, "as read: 4.2, 4.2C, 39.6F; without letter: in the scale it is always read in")->required();
    command->add_option("--min", options->min, "the lowest since the check before");
    command->add_option("--max", options->max, "the highest since the check before");
    command->add_option("--probe", options->probe, "the probe it was read from");
}

}  // namespace coldtally::cli
