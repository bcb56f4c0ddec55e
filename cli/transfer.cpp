#include "work.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot, doses, to, reason;
};

int transfer(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("transfer", options);
    put_holding(fields, options);
    fields["lot"] = options.lot;
    fields["doses"] = read_doses("DOSES", options.doses);
    fields["to"] = options.to;
    fields["reason"] = options.reason;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_transfer(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "transfer", "Notes doses sent to another site", transfer, options, "coldtally transfer K0123 10 'Harbour Street' 'short-dated, used sooner there'");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("DOSES", options->doses, "how many")->required();
    command->add_option("TO", options->to, "the other site")->required();
    command->add_option("REASON", options->reason, "why")->required();
    add_holding_options(*command, *options);
}

}  // namespace coldtally::cli
