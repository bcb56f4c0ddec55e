#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot;
    std::optional<std::string> to, to_mark, doses;
};

int move(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("move", options);
    put(fields, "product", options.product);
    put(fields, "fund", options.fund);
    fields["lot"] = options.lot;
    fields["from"] = Fields::object();
    fields["to"] = Fields::object();
    put(fields["from"], "place", options.place);
    put(fields["from"], "mark", options.mark);
    put(fields["to"], "place", options.to);
    put(fields["to"], "mark", options.to_mark);
    if (options.doses) fields["doses"] = read_doses("--doses", *options.doses);
    return post_draft(options, fields, surroundings);
}

}  // namespace

void add_move(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "move", "Moves doses to another place, or under another mark", move,
                                 options, "coldtally move K0123 annex --from main --doses 10");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("TO", options->to, "the place they go to; not given: they stay, and get --to-mark");
    command->add_option("--to-mark", options->to_mark, "the mark they get; not given: they keep theirs");
    command->add_option("--doses", options->doses, "how many; not given: all");
    add_holding_options(*command, *options, "--from");
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
