#include <memory>
#include <optional>

#include "coldtally/work.hpp"
#include "files.hpp"
#include "layout_options.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger, probe, by, note;
    std::vector<std::string> files;
    LayoutOptions layout;
    bool yes = false, loosen = false, dry_run = false;
    FormOptions form;
};

int import_files(const Options& options, const Surroundings& surroundings) {
    ImportRequest request;
    request.probe = options.probe;
    request.by = options.by;
    request.layout = read_layout(options.layout);
    request.accept_guesses = options.yes;
    request.loosen = options.loosen;
    if (!options.note.empty()) request.note = options.note;

    Ledger ledger(options.ledger, Ledger::Mode::write);
    auto path = options.files.begin();
    const auto next = [&]() -> std::optional<LoggerFile> {
        if (path == options.files.end()) return std::nullopt;
        return open_logger_file(*path++);
    };
    const ImportDone imported = Work(ledger, surroundings.now).import_readings(request, next, options.dry_run);
    surroundings.out.write(options.form.format == "json"
                               ? to_json(imported)
                               : to_table(imported, table_style(options.form, ledger, ledger.zone(), surroundings)));
    return done;
}

}  // namespace

void add_import(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("import", "Reads the files of a temperature logger, all of them or none");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger, ledger_of_any_words);
    command->add_option("FILE", options->files, "the logger's text files; -: standard input")->required();
    command->add_option("--probe", options->probe, "the probe whose memory they are")->required();
    command->add_option("--by", options->by, "initials")->required()->envname("COLDTALLY_BY");
    command->add_option("--note", options->note, "a note kept with the entries");
    command->add_flag("--yes", options->yes, "goes on where what was guessed could be otherwise");
    command->add_flag("--loosen", options->loosen,
                      "posts it also where doses lose a reason not to be used, excursions get less, or a display "
                      "disagrees with the readings; --yes does not say that");
    command->add_flag("--dry-run", options->dry_run,
                      "reads and checks everything, says what it would do, writes nothing");
    add_layout_options(*command, options->layout);
    add_form_options(*command, options->form);
    command->footer(
        "The layout that was used stands in the JSON of the report, as a layout file would state it.\n\n" +
        help_end("coldtally import clinic.ledger --probe p1 --by ab --columns instant=1,temperature=2 march.csv"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return import_files(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
