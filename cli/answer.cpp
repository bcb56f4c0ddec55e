#include <memory>

#include "coldtally/work.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, report, product, lot, verdict, issuer, reference, by;
    std::optional<std::string> place, mark, since, use_by, at, despite;
    bool yes = false;
    FormOptions form;
};

Verdict verdict_of(const std::string& name) {
    return name == "use" ? Verdict::use : name == "use-by" ? Verdict::use_by : Verdict::discard;
}

int answer(const Options& options, const Surroundings& surroundings) {
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const Zone zone = ledger.zone();
    Guidance guidance;
    guidance.product = options.product;
    guidance.lot = options.lot;
    guidance.place = options.place;
    guidance.mark = options.mark;
    if (options.since) guidance.since = read_instant("--since", *options.since, zone, surroundings.now);
    guidance.verdict = verdict_of(options.verdict);
    if (options.use_by) guidance.use_by = Date::parse(*options.use_by);
    if ((guidance.verdict == Verdict::use_by) != guidance.use_by.has_value())
        throw Error(Code::contradiction, "--use-by: comes with the verdict use-by, and only with it");
    guidance.issuer = options.issuer;
    guidance.reference = options.reference;
    Entry entry;
    entry.at = options.at ? read_instant("--at", *options.at, zone, surroundings.now) : surroundings.now;
    entry.by = options.by;
    entry.note = options.despite;
    entry.fact = guidance;
    const AnswerDone answered =
        Work(ledger, surroundings.now)
            .answer(read_whole("REPORT", options.report, INT64_MAX / 10 - 1), entry, options.yes);
    surroundings.out.write(options.form.format == "json"
                               ? to_json(answered)
                               : to_table(answered, table_style(options.form, ledger, zone, surroundings)));
    return answered.refused ? answer_is_no : done;
}

}  // namespace

void add_answer(CLI::App& program, Run& run) {
    CLI::App* command = program.add_subcommand(
        "answer", "Takes the guidance that answers a report: shows what it changes and does not cover; --yes posts it");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command
        ->add_option("REPORT", options->report,
                     "the number of the report's entry: what it told is what the answer covers")
        ->required();
    command->add_option("PRODUCT", options->product, "the product's id")->required();
    command->add_option("LOT", options->lot, "the lot's number")->required();
    command->add_option("--verdict", options->verdict, "use, use-by or discard")
        ->required()
        ->check(CLI::IsMember({"use", "use-by", "discard"}));
    command->add_option("--use-by", options->use_by, "with the verdict use-by: the last day of use, 2026-07-15");
    command->add_option("--place", options->place, "only for doses that were in this place then");
    command->add_option("--mark", options->mark, "only for doses with this mark");
    command->add_option("--since", options->since,
                        "the instant from which on it judges exposures; doses given before are not covered by it");
    command->add_option("--issuer", options->issuer, "who answered")->required();
    command->add_option("--reference", options->reference, "the answer's case number or document")->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--at", options->at, "when the answer came; not given: now");
    command->add_flag("--yes", options->yes, "posts it");
    command->add_option("--despite", options->despite,
                        "why it is posted although it does not cover everything; kept as a note");
    add_form_options(*command, options->form);
    command->footer(
        folded(caution) + "\n\n" +
        help_end("coldtally answer clinic.ledger 214 mmr K0123 --verdict use --issuer 'Works' --reference "
                 "'case 7' --by ab --yes",
                 "--yes was given, and what was told is not all that is known, as said; nothing was posted"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return answer(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
