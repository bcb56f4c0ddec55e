#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string lot, verdict, through, issuer, reference;
    std::optional<std::string> since, use_by, out_of_range, unmonitored, points;
};

int guidance(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("guidance", options);
    put_holding(fields, options);
    fields["lot"] = options.lot;
    fields["verdict"] = options.verdict;
    put(fields, "since", options.since);
    fields["through"] = options.through;
    put(fields, "use_by", options.use_by);
    fields["issuer"] = options.issuer;
    fields["reference"] = options.reference;
    const auto tell = [&](const char* name, const char* option, const std::optional<std::string>& value) {
        if (value) fields["told"][name] = read_duration(option, *value);
    };
    tell("out_of_range_s", "--told-out-of-range", options.out_of_range);
    tell("unmonitored_s", "--told-unmonitored", options.unmonitored);
    if (options.points) fields["told"]["points"] = read_whole("--told-points", *options.points, 1'000'000'000);
    Ledger ledger(options.ledger, Ledger::Mode::write);
    return say(Work(ledger, surroundings.now).judge(draft_text(fields), meant(options)), options, ledger, surroundings);
}

}  // namespace

void add_guidance(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(
        program, run, "guidance",
        "Notes what a manufacturer or health department answered, and says what that changes; --dry-run says it before",
        guidance, options,
        "coldtally guidance K0123 use --through 08:05 --issuer 'the maker' --reference 'case 26-0324'");
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("VERDICT", options->verdict, "use, use-by or discard")
        ->required()
        ->check(CLI::IsMember({"use", "use-by", "discard"}));
    command
        ->add_option("--through", options->through,
                     "the instant up to which it judges what the doses have been through")
        ->required();
    command->add_option("--since", options->since,
                        "the instant from which on it judges it; doses given before are not covered by it");
    command->add_option("--issuer", options->issuer, "who gave it")->required();
    command->add_option("--reference", options->reference, "letter, case number, date")->required();
    command->add_option("--use-by", options->use_by, "the last day of use, with the verdict use-by");
    command->add_option("--told-out-of-range", options->out_of_range,
                        "what the issuer was told, or up to what the answer holds: time out of range, such as '10 h "
                        "33 min'");
    command->add_option("--told-unmonitored", options->unmonitored, "time not known, such as '40 min'");
    command->add_option("--told-points", options->points, "single readings out of range");
    add_doses_options(*command, *options);
}

}  // namespace coldtally::cli
