#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string product;
    std::optional<std::string> name, low, high, freeze_limit, cvx, doses_per_vial;
    std::vector<std::string> gtin;
    std::vector<std::tuple<std::string, std::string, std::string, std::string>> allowances;
    std::vector<std::pair<std::string, std::string>> beyond_use;
};

int product(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("product", options);
    fields["product"] = options.product;
    put(fields, "name", options.name);
    if (options.low) fields["range"]["low"] = read_limit("--low", *options.low);
    if (options.high) fields["range"]["high"] = read_limit("--high", *options.high);
    if (options.freeze_limit) fields["freeze_limit"] = read_limit("--freeze-limit", *options.freeze_limit);
    for (const auto& [low, high, time, source] : options.allowances)
        fields["allowances"].push_back(
            {{"band", {{"low", read_limit("--allowance", low)}, {"high", read_limit("--allowance", high)}}},
             {"seconds", read_duration("--allowance", time)},
             {"source", source}});
    for (const auto& [event, time] : options.beyond_use)
        fields["beyond_use"][event] = read_duration("--beyond-use", time);
    put(fields, "cvx", options.cvx);
    if (!options.gtin.empty()) fields["gtin"] = options.gtin;
    if (options.doses_per_vial) fields["doses_per_vial"] = read_doses("--doses-per-vial", *options.doses_per_vial);
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_product(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "product",
                 "Defines a product and what its documents permit; of one that is known, changes what is stated",
                 product, options, "coldtally product mmr 'Measles, mumps, rubella' --low 2C/36F --high 8C/46F");
    command->add_option("PRODUCT", options->product, "the product's id")->required();
    command->add_option("NAME", options->name, "its name; may be left out where the product is known");
    command->add_option("--low", options->low, "lower limit: 2C, 36F, or 2C/36F");
    command->add_option("--high", options->high, "upper limit: 8C, 46F, or 8C/46F");
    command->add_option("--freeze-limit", options->freeze_limit, "at or below it the doses count as frozen: 0C/32F");
    command->add_option("--allowance", options->allowances,
                        "LOW HIGH TIME SOURCE: a band outside the range that its documents permit, such as 8C 25C "
                        "'72 h' 'leaflet 7'");
    command->add_option("--beyond-use", options->beyond_use, 
                        "EVENT TIME: how long it may be used after an event, such as 'first puncture' '28 days'");
    command->add_option("--cvx", options->cvx, "its CVX code");
    command->add_option("--gtin", options->gtin, "its GTINs");
    command->add_option("--doses-per-vial", options->doses_per_vial, "doses in a vial");
    add_definition_options(*command, *options,
                           "low, high, freeze-limit, allowances, 'allowance 1', beyond-use, 'beyond-use EVENT', cvx, "
                           "gtin, 'gtin NUMBER', doses-per-vial");
}

}  // namespace coldtally::cli
