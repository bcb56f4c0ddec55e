#include "work.hpp"

#include "coldtally/entry_work.hpp"

namespace coldtally::cli {

void add_work_options(CLI::App& command, WorkOptions& options) {
    command.add_option("--ledger", options.ledger, "the ledger's file")->required()->envname("COLDTALLY_LEDGER");
    command.add_option("--by", options.by, "initials")->required()->envname("COLDTALLY_BY");
    command.add_option("--at", options.at, "when it happened: 08:05 (today), '2026-03-02 08:05', 'yesterday 4:20 PM'; not given: now");
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

namespace {

/// What was drafted, posted and said with what it changes, or said alone where it is asked about.
int post_asked(Ledger& ledger, const DefinitionDraft& draft, const WorkOptions& options,
               const Surroundings& surroundings) {
    const bool asks = !draft.loosens.empty() && !options.yes;
    Posted said{draft.drafted, options.dry_run || asks};
    ledger.post(said.what, surroundings.now, said.dry_run);
    const auto style = [&] { return table_style(options.form, ledger, ledger.zone(), surroundings); };
    surroundings.out.write(options.form.format == "json" ? to_json(said, *draft.changes)
                                                         : to_table(said, *draft.changes, style()));
    if (!options.dry_run && asks) surroundings.out.flush();
    if (!options.dry_run) ask_before_loosening(draft, options.yes);
    return done;
}

}  // namespace

int post_drafted(Ledger& ledger, Drafted drafted, const WorkOptions& options, const Surroundings& surroundings,
                 const std::function<void(Drafted&)>& posted) {
    const bool is_new = std::holds_alternative<Site>(drafted.entries.front().fact);  // of a ledger, or of its site
    DefinitionDraft draft = is_new ? DefinitionDraft{std::move(drafted), std::nullopt, {}}
                                   : entry_draft(ledger, std::move(drafted), surroundings.now);
    if (draft.changes && !options.yes) return post_asked(ledger, draft, options, surroundings);
    ledger.post(draft.drafted, surroundings.now, options.dry_run);
    if (posted && !options.dry_run) posted(draft.drafted);
    const Posted said{std::move(draft.drafted), options.dry_run};
    const auto style = [&] {  // a ledger that a dry run does not make has no zone to ask
        if (const auto* site = std::get_if<Site>(&said.what.entries.front().fact)) return TableStyle{Zone(site->zone)};
        return table_style(options.form, ledger, ledger.zone(), surroundings);
    };
    if (draft.changes)
        surroundings.out.write(options.form.format == "json" ? to_json(said, *draft.changes)
                                                             : to_table(said, *draft.changes, style()));
    else
        surroundings.out.write(options.form.format == "json" ? to_json(said) : to_table(said, style()));
    return done;
}

int post_draft(const WorkOptions& options, const Fields& fields, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, fields["kind"] == "site" ? Ledger::Mode::create : Ledger::Mode::write);
    return post_drafted(ledger, ledger.draft(draft_text(fields), surroundings.now), options, surroundings);
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
    DefinitionDraft draft = definition_draft(ledger, draft_text(fields), surroundings.now);
    if (!draft.changes) return post_drafted(ledger, std::move(draft.drafted), options, surroundings);
    return post_asked(ledger, draft, options, surroundings);
}

int post_with_changes(const WorkOptions& options, const Fields& fields, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    Drafted drafted = ledger.draft(draft_text(fields), surroundings.now);
    const Changes changes = ledger.changes(drafted.entries, surroundings.now);
    if (options.form.format == "table") {
        post_drafted(ledger, std::move(drafted), options, surroundings);
        surroundings.out.write(to_table(changes, table_style(options.form, ledger, ledger.zone(), surroundings)));
        return done;
    }
    ledger.post(drafted, surroundings.now, options.dry_run);
    Fields out = Fields::parse(to_json(Posted{std::move(drafted), options.dry_run}));
    out["changes"] = Fields::parse(to_json(changes));
    surroundings.out.write(out.dump() + "\n");
    return done;
}

}  // namespace coldtally::cli
