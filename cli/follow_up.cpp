#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::optional<std::string> lot, product;
};

int follow_up(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.follow_up(options.lot, options.product, instants.question, surroundings.now), options, ledger,
          surroundings);
    return done;
}

}  // namespace

void add_follow_up(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "follow-up", "Lists doses under review, or of a recalled lot, with what was done about each");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("--lot", options->lot, "a recall: every dose given of this lot; not given: the review list");
    command->add_option("--product", options->product, "the product of that lot");
    command->footer(question_help_end("coldtally follow-up clinic.ledger --lot K0123"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return follow_up(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
