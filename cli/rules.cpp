#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

constexpr std::int64_t usual_days = 30;

struct Options : QuestionOptions {
    std::optional<std::string> place, from, until;
};

int rules(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    std::optional<Instant> from;
    if (options.from) from = read_from(*options.from, instants.zone, surroundings.now);
    const Instant until = options.until ? read_until(*options.until, instants.zone, surroundings.now, from)
                                        : instants.question.at.value_or(surroundings.now);
    print(ledger.rules(options.place, from.value_or(until - Duration(usual_days * 86400)), until, instants.question,
                       surroundings.now),
          options, ledger, surroundings);
    return done;
}

}  // namespace

void add_rules(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("rules", "Says what the programme asks for, and which of its conditions were met where");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("PLACE", options->place, "the place's id; not given: every place");
    command->add_option("--from", options->from,
                        "the first instant of the window; a date: that day's first; not given: 30 days before its end");
    command->add_option("--until", options->until, std::string(until_says) + "; not given: that of the question");
    command->footer(question_help_end("coldtally rules clinic.ledger main --from 2026-03-01T00:00:00"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return rules(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
