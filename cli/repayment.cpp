#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string loan, doses;
    std::optional<std::string> with;
};

int repayment(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("repayment", options);
    fields["loan"] = read_number("LOAN", options.loan);
    fields["doses"] = read_doses("DOSES", options.doses);
    if (options.with) fields["with"] = read_number("--with", *options.with);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_repayment(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "repayment", "Notes doses of a loan repaid to the fund that lent them",
                                 repayment, options, "coldtally repayment 160 1 --with 172");
    command->add_option("LOAN", options->loan, "the number of the loan (coldtally loans names it)")->required();
    command->add_option("DOSES", options->doses, "how many")->required();
    command->add_option("--with", options->with, "the number of the receive or give by which they came back");
}

}  // namespace coldtally::cli
