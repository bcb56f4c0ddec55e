#include "everyday.hpp"

namespace coldtally::cli {

void add_work_options(CLI::App& command, WorkOptions& options) {
    command.add_option("--ledger", options.ledger, "the ledger's file")->required()->envname("COLDTALLY_LEDGER");
    command.add_option("--by", options.by, "initials")->required()->envname("COLDTALLY_BY");
    command.add_option("--at", options.at,
                       "when it happened: 08:05 (today), '2026-03-02 08:05', 'yesterday 4:20 PM'; not given: now");
    command.add_option("--note", options.note, "a note kept with the entry");
    command.add_flag("--dry-run", options.dry_run, "checks and says everything, writes nothing");
    add_form_options(command, options.form);
}

void add_holding_options(CLI::App& command, HoldingOptions& options, const char* place) {
    command.add_option(place, options.place, "the place's id");
    command.add_option("--product", options.product, "the product's id");
    command.add_option("--fund", options.fund, "the fund; '': the empty one");
    command.add_option("--mark", options.mark, "the mark; '': the unmarked doses");
}

void add_doses_options(CLI::App& command, HoldingOptions& options) {
    command.add_option("--place", options.place, "the place's id");
    command.add_option("--product", options.product, "the product's id");
    command.add_option("--mark", options.mark, "the mark; '': the unmarked doses");
}

void add_yes_option(CLI::App& command, WorkOptions& options) {
    command.add_flag(
        "--yes", options.yes,
        "posts it also where it is looser than what holds, doses lose a reason not to be used, or gives come "
        "off the review list or get a better finding");
}

void add_definition_options(CLI::App& command, DefinitionOptions& options, const char* names) {
    add_yes_option(command, options);
    command
        .add_option("--without", options.without,
                    std::string("drops by name what is known, once for each (--without low --without high); all else "
                                "that is not stated is kept: ") +
                        names)
        ->allow_extra_args(false);
}

std::string work_help_end(const std::string& example) {
    return folded(
               "What is not given and has one meaning only is filled in and said; where it has several, they are named "
               "and nothing is written.") +
           "\n\n" + help_end(example);
}

Fields fields_of(const char* kind, const WorkOptions& options) {
    Fields out = {{"kind", kind}, {"by", options.by}};
    put(out, "at", options.at);
    put(out, "note", options.note);
    return out;
}

std::string draft_text(const Fields& fields) {
    for (const auto& [name, value] : fields.items()) try {
            static_cast<void>(value.dump());
        } catch (const Fields::type_error&) {
            throw Error(Code::bad_text, name + ": is not valid UTF-8");
        }
    return fields.dump();
}

void put_holding(Fields& fields, const HoldingOptions& options) {
    put(fields, "place", options.place);
    put(fields, "product", options.product);
    put(fields, "fund", options.fund);
    put(fields, "mark", options.mark);
}

std::int64_t read_doses(const std::string& option, const std::string& text) {
    return read_whole(option, text, 1'000'000'000);
}

std::int64_t read_number(const std::string& option, const std::string& text) {
    return read_whole(option, text, INT64_MAX / 16);
}

void put_temperature(Fields& fields, const char* field, const std::string& text) {
    std::string number = text;
    if (!number.empty() && std::string("CcFf").find(number.back()) != std::string::npos) {
        const std::string scale(1, number.back() == 'c' || number.back() == 'C' ? 'C' : 'F');
        number.pop_back();
        if (fields.contains("scale") && fields["scale"] != scale)
            throw Error(Code::contradiction,
                        std::string(field) + ": \"" + text + "\": all temperatures of a check must be in one scale");
        fields["scale"] = scale;
    }
    fields[field] = number;
}

Fields read_limit(const std::string& option, const std::string& text) {
    Fields out = Fields::object();
    std::size_t from = 0;
    while (from <= text.size()) {
        const std::size_t end = std::min(text.find('/', from), text.size());
        const std::string part = text.substr(from, end - from);
        if (part.size() < 2 || (part.back() != 'C' && part.back() != 'F'))
            throw Error(Code::bad_value, option + ": \"" + text + "\": must be 2C, 36F, or both: 2C/36F");
        out[std::string(1, part.back())] = part.substr(0, part.size() - 1);
        from = end + 1;
    }
    return out;
}

Meant meant(const WorkOptions& options) { return {options.yes, options.dry_run}; }

int say(const WorkDone& done, const WorkOptions& options, const Ledger& ledger, const Surroundings& surroundings) {
    if (options.form.format == "json") {
        surroundings.out.write(to_json(done));
    } else {
        const auto* site = std::get_if<Site>(&done.posted.what.entries.front().fact);
        surroundings.out.write(
            to_table(done, site ? TableStyle{.zone = done.zone,
                                             .columns = surroundings.columns,
                                             .book = &surroundings.book}
                                : table_style(options.form, ledger, done.zone, surroundings)));
    }
    if (!done.asks.empty()) surroundings.out.flush();
    require_meant(done);
    return cli::done;  // the exit status
}

int post_draft(const WorkOptions& options, const Fields& fields, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    return say(Work(ledger, surroundings.now).post(draft_text(fields), meant(options)), options, ledger, surroundings);
}

namespace {

/// Options of durations have no unit in their name, fields have.
std::vector<std::string> field_names(std::vector<std::string> options) {
    for (auto& name : options)
        for (const char* duration : {"max-gap", "max-check-gap", "near", "unmonitored-limit", "stale-after"})
            if (name == duration) name += "-s";
    return options;
}

}  // namespace

int post_definition(const DefinitionOptions& options, Fields fields, const Surroundings& surroundings) {
    if (!options.without.empty()) fields["without"] = field_names(options.without);
    Ledger ledger(options.ledger, fields["kind"] == "site" ? Ledger::Mode::create : Ledger::Mode::write);
    return say(Work(ledger, surroundings.now).define(draft_text(fields), meant(options)), options, ledger,
               surroundings);
}

}  // namespace coldtally::cli
