#include <memory>

#include "coldtally/handover_work.hpp"
#include "options.hpp"
#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : QuestionOptions {
    std::string entry;
    std::optional<std::string> file;
};

int handover(const Options& options, const Surroundings& surroundings) {
    const EntryNumber transfer = read_number("ENTRY", options.entry);
    const auto [answer, style] = [&] {
        const Ledger ledger(options.ledger);
        const Viewed seen = view_of(ledger, options, surroundings.now);
        return std::pair(seen.view.handover(transfer), table_style(options.form, seen.view, surroundings));
    }();
    if (options.file) {
        TableStyle paper = style;
        paper.color = false;
        paper.columns = paper_columns;
        write_handover(answer, *options.file, paper);
    }
    surroundings.out.write(options.form.format == "json" ? to_json(answer) : to_table(answer, style));
    return done;
}

}  // namespace

void add_handover(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "handover",
        "The history of doses as they left by a transfer, for the site that receives them: the sheet, and its file");
    const auto options = std::make_shared<Options>();
    add_question_options(*command, *options);
    command->add_option("ENTRY", options->entry, "the number of the transfer")->required();
    command->add_option(
        "--file", options->file,
        "a new file for the history, which the other site's receive takes; the sheet is written beside it");
    command->footer(folded("To be stated anew where later readings tell more of the time before they left: the "
                           "receiver takes the first back and notes this one.") +
                    "\n\n" + question_help_end("coldtally handover clinic.ledger 151 --file handover-K0123.json"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return handover(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
