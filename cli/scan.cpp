#include <memory>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::string code;
};

int scan(const Options& options, const Surroundings& surroundings) {
    const Ledger ledger(options.ledger);
    const Instants instants = read_instants(ledger, options, surroundings.now);
    print(ledger.scan(options.code, instants.question, surroundings.now), options, ledger, surroundings);
    return done;
}

}  // namespace

void add_scan(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("scan", "Says what the code on a box means, and on which list its lot is");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command
        ->add_option(
            "CODE", options->code,
            "what a scanner reads (GS1), or the form printed beneath the code: '(01)09521234543213(17)270531(10)K0123'")
        ->required();
    command->footer(
        folded("receive, give, waste, return, transfer, count, move, hold, guidance and beyond-use take the code in "
               "place of the lot: it then states lot and product, and in a delivery the expiry.") +
        "\n\n" + folded(caution) + "\n\n" +
        question_help_end("coldtally scan clinic.ledger '(01)09521234543213(17)270531(10)K0123'"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return scan(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
