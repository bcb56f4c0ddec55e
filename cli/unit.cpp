#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

constexpr std::int64_t highest_activation = 1'000'000;

struct Options : QuestionOptions {
    std::string place;
    std::optional<std::string> from, until;
    std::string activation = "10000";
};

int unit(const Options& options, const Surroundings& surroundings) {
    const std::int64_t activation = read_whole("--activation-K", options.activation, highest_activation);
    if (activation == 0)
        throw Error(Code::bad_value, "--activation-K: 0 is no activation energy; the usual value is 10000");
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    std::optional<Instant> from, until;
    if (options.from) from = read_from(*options.from, instants.zone, surroundings.now);
    if (options.until) until = read_until(*options.until, instants.zone, surroundings.now, from);
    print(ledger.unit(options.place, from, until, instants.question, surroundings.now, activation), options, ledger,
          surroundings);
    return done;
}

}  // namespace

void add_unit(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "unit",
        "Tells the history of a storage unit by month: excursions, coverage, means, hours, devices that disagree");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("PLACE", options->place, "the place's id")->required();
    command->add_option(
        "--from", options->from,
        "the first instant; a date: that day's first; not given: that of the first thing known of the place, its "
        "definition as it was posted, a reading or a check");
    command->add_option("--until", options->until, std::string(until_says) + "; not given: that of the question");
    command
        ->add_option("--activation-K", options->activation,
                     "for the mean kinetic temperature: activation energy / gas constant")
        ->capture_default_str();
    command->footer(question_help_end("coldtally unit clinic.ledger main"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return unit(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
