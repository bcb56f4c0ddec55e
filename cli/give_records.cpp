#include "files.hpp"
#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions, HoldingOptions {
    std::string file;
    bool lot_only = false;
};

int give_records(const Options& options, const Surroundings& surroundings) {
    RecordsRequest request;
    request.by = options.by;
    request.note = options.note;
    request.place = options.place;
    request.product = options.product;
    request.fund = options.fund;
    request.mark = options.mark;
    request.certain = !options.lot_only;
    const std::string text = read_file(options.file);
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const PostedRecords posted = Work(ledger, surroundings.now).give_records(request, text, meant(options));
    surroundings.out.write(options.form.format == "json"
                               ? to_json(posted)
                               : to_table(posted, table_style(options.form, ledger, ledger.zone(), surroundings)));
    return done;
}

}  // namespace

void add_give_records(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "give-records", "Notes doses given that another system has recorded, in HL7 FHIR R4",
                 give_records, options, "coldtally give-records given.ndjson --dry-run");
    command->remove_option(command->get_option("--at"));  // each record states its own
    command
        ->add_option("FILE", options->file,
                     "Immunization resources, one a line (NDJSON), one alone, or a Bundle; -: standard input")
        ->required();
    command->add_flag("--lot-only", options->lot_only, "the records name the lot and not the box");
    add_holding_options(*command, *options);
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
