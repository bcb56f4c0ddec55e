#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot, doses, to, reason;
    std::optional<std::string> handover;
};

int transfer(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("transfer", options);
    put_holding(fields, options);
    fields["lot"] = options.lot;
    fields["doses"] = read_doses("DOSES", options.doses);
    fields["to"] = options.to;
    fields["reason"] = options.reason;
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const TableStyle style = table_style(options.form, ledger, ledger.zone(), surroundings);
    TableStyle paper = style;
    paper.color = false;
    paper.columns = paper_columns;
    const PostedTransfer posted = Work(ledger, surroundings.now)
                                      .transfer(draft_text(fields), options.handover, true, meant(options), paper);
    surroundings.out.write(options.form.format == "json" ? to_json(posted) : to_table(posted, style));
    return done;
}

}  // namespace

void add_transfer(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(
        program, run, "transfer", "Notes doses sent to another site, and writes the history that goes with them",
        transfer, options, "coldtally transfer K0123 10 'Harbour Street' 'short-dated, used sooner there'");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("DOSES", options->doses, "how many")->required();
    command->add_option("TO", options->to, "the other site")->required();
    command->add_option("REASON", options->reason, "why")->required();
    command->add_option(
        "--handover", options->handover,
        "a new file for their history, which the other site's receive takes; the sheet for people is written beside "
        "it. Not given: where they were out of range, or their use is in question or shortened, a file in the "
        "working folder, named by lot and time");
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
