#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::string product;
    std::optional<std::string> name, contact, phone, email;
};

int maker(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("maker", options);
    fields["product"] = options.product;
    put(fields, "name", options.name);
    put(fields, "contact", options.contact);
    put(fields, "phone", options.phone);
    put(fields, "email", options.email);
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_maker(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "maker", "Says who makes a product, and how to ask", maker, options,
                 "coldtally maker mmr 'Invented Works' --phone '555 0102' --contact 'medical information'");
    command->add_option("PRODUCT", options->product, "the product's id")->required();
    command->add_option(
        "NAME", options->name,
        "the manufacturer's name; `incident --maker NAME` answers for it; may be left out where it is known");
    command->add_option("--contact", options->contact, "whom to ask there");
    command->add_option("--phone", options->phone, "telephone");
    command->add_option("--email", options->email, "email");
    add_definition_options(*command, *options, "contact, phone, email");
}

}  // namespace coldtally::cli
