#include "work.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string entry, reason;
};

int takeback(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    Fields fields = fields_of("void", options);
    fields["voids"] = read_number("ENTRY", options.entry);
    fields["reason"] = options.reason;
    Drafted drafted = ledger.draft(fields.dump(), surroundings.now);
    const Changes changes = ledger.changes(drafted.entries, surroundings.now);
    const bool json = options.form.format == "json";
    if (!json) {
        post_drafted(ledger, std::move(drafted), options, surroundings);
        surroundings.out.write(to_table(changes, table_style(options.form, ledger, ledger.zone(), surroundings)));
        return done;
    }
    const auto numbers = ledger.post(drafted.entries, surroundings.now, options.dry_run);
    for (std::size_t i = 0; i < numbers.size(); ++i) drafted.entries[i].number = numbers[i];
    Fields out = Fields::parse(to_json(Posted{std::move(drafted), options.dry_run}));
    out["changes"] = Fields::parse(to_json(changes));
    surroundings.out.write(out.dump() + "\n");
    return done;
}

}  // namespace

void add_takeback(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "takeback", "Takes back an entry that was a mistake, and says what that changes", takeback, options,
                                 "coldtally takeback 812 'entered twice' --dry-run");
    command->add_option("ENTRY", options->entry, "the number of the entry")->required();
    command->add_option("REASON", options->reason, "why")->required();
}

}  // namespace coldtally::cli
