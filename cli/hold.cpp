#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string reason;
    std::optional<std::string> lot;
};

int hold(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("hold", options);
    put_holding(fields, options);
    put(fields, "lot", options.lot);
    fields["reason"] = options.reason;
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_hold(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "hold", "Puts doses on hold until guidance has come", hold, options,
                                 "coldtally hold 'door found open' --lot K0123 --place main");
    command->add_option("REASON", options->reason, "why")->required();
    command->add_option("--lot", options->lot,
                        "the lot's number; not given: every lot of --product, or of all that is in --place");
    add_doses_options(*command, *options);
}

}  // namespace coldtally::cli
