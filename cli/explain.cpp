#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    HoldingKey holding;
};

int explain(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.explain(options.holding, instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_explain(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand("explain", "Says why a holding is on its list, in the order of time");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("PLACE", options->holding.place, "the place's id")->required();
    command->add_option("PRODUCT", options->holding.product, "the product's id")->required();
    command->add_option("LOT", options->holding.lot, "the lot's number")->required();
    command->add_option("--mark", options->holding.mark,
                        "the mark that keeps the doses apart; not given: the unmarked ones");
    command->add_option("--fund", options->holding.fund, "the fund; not given: the empty one");
    command->footer(question_help_end("coldtally explain clinic.ledger main mmr K0123 --mark 'bin 2'"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return explain(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
