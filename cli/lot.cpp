#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string product, lot, expiry;
};

int lot(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("lot", options);
    fields["product"] = options.product;
    fields["lot"] = options.lot;
    fields["expiry"] = options.expiry;
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_lot(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "lot", "Defines a lot and its expiry", lot, options, "coldtally lot mmr K0123 2027-05");
    command->add_option("PRODUCT", options->product, "the product's id")->required();
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("EXPIRY", options->expiry, "2027-05-31, or 2027-05 for the month's last day")->required();
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
