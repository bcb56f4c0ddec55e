#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot, doses, reason;
};

int give_back(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("return", options);
    put_holding(fields, options);
    fields["lot"] = options.lot;
    fields["doses"] = read_doses("DOSES", options.doses);
    fields["reason"] = options.reason;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_give_back(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "return", "Notes doses sent back", give_back, options,
                                 "coldtally return K0123 5 'expired' --place main");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("DOSES", options->doses, "how many")->required();
    command->add_option("REASON", options->reason, "why")->required();
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
