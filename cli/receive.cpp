#include "files.hpp"
#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot, doses;
    std::optional<std::string> expiry, handover, no_hold;
};

int receive(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("receive", options);
    put_holding(fields, options);
    fields["lot"] = options.lot;
    fields["doses"] = read_doses("DOSES", options.doses);
    put(fields, "expiry", options.expiry);
    if (options.handover) fields["handover"] = Fields::parse(read_file(*options.handover), nullptr, false);
    put(fields, "no_hold", options.no_hold);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_receive(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "receive", "Takes in doses of a delivery", receive, options,
                                 "coldtally receive K0123 20 --product mmr --expiry 2027-05 --place main --fund state");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("DOSES", options->doses, "how many")->required();
    command->add_option("--expiry", options->expiry,
                        "the expiry on the box, 2027-05-31 or 2027-05: defines a new lot, must agree with a known one");
    command->add_option("--handover", options->handover,
                        "the file that the sending site's transfer wrote; it must be of this product and lot, and of "
                        "as many doses");
    command->add_option("--no-hold", options->no_hold,
                        "leaves doses off hold that the sending site has on hold or in doubt, and says why; kept as a "
                        "note");
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
