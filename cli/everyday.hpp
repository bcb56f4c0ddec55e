// Everyday: what the commands of everyday work share: a draft from the words of the command line, posted, and said.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "coldtally/work.hpp"
#include "options.hpp"

namespace coldtally::cli {

struct WorkOptions {
    std::string ledger, by;
    std::optional<std::string> at, note;
    bool dry_run = false;
    bool yes = false;  ///< of commands with add_yes_option
    FormOptions form;
};
/// --ledger, --by, --at, --note, --dry-run and those of the form.
void add_work_options(CLI::App& command, WorkOptions& options);

/// What names a holding beside its lot.
struct HoldingOptions {
    std::optional<std::string> place, product, fund, mark;
};
void add_holding_options(CLI::App& command, HoldingOptions& options, const char* place = "--place");
/// Those without the fund: what acts on doses of every fund.
void add_doses_options(CLI::App& command, HoldingOptions& options);
std::string work_help_end(const std::string& example);

using Fields = nlohmann::ordered_json;
template <class T>
void put(Fields& fields, const char* name, const std::optional<T>& value) {
    if (value) fields[name] = *value;
}
/// The fields of a kind with by, at and note.
Fields fields_of(const char* kind, const WorkOptions& options);
/// The draft as JSON. Code::bad_text for a field that is not UTF-8.
std::string draft_text(const Fields& fields);
void put_holding(Fields& fields, const HoldingOptions& options);
/// "12" as a number of doses.
std::int64_t read_doses(const std::string& option, const std::string& text);
/// "151" as the number of an entry.
std::int64_t read_number(const std::string& option, const std::string& text);
/// "4.2", "4.2C", "39.6F": sets field to the number, and scale where it is stated. Code::contradiction where two
/// differ.
void put_temperature(Fields& fields, const char* field, const std::string& text);

/// What definitions take besides: --yes, and those of a thing that is known --without.
struct DefinitionOptions : WorkOptions {
    std::vector<std::string> without;
};
void add_yes_option(CLI::App& command, WorkOptions& options);
/// --yes and --without; `names`: what can be dropped.
void add_definition_options(CLI::App& command, DefinitionOptions& options, const char* names);

/// "2C", "36F" or "2C/36F" as a limit.
Fields read_limit(const std::string& option, const std::string& text);

Meant meant(const WorkOptions& options);
/// Says what was done; where it loosens what was not said to be meant, that nothing was posted, by a Refusal.
int say(const WorkDone& done, const WorkOptions& options, const Ledger& ledger, const Surroundings& surroundings);
/// Work::post and Work::define, said.
int post_draft(const WorkOptions& options, const Fields& fields, const Surroundings& surroundings);
int post_definition(const DefinitionOptions& options, Fields fields, const Surroundings& surroundings);

/// A command of everyday work whose options are an Options with WorkOptions among its bases.
template <class Options>
CLI::App* add_work(CLI::App& program, Run& run, const char* name, const char* says,
                   int (*work)(const Options&, const Surroundings&), std::shared_ptr<Options> options,
                   const std::string& example) {
    CLI::App* command = program.add_subcommand(name, says);
    add_work_options(*command, *options);
    command->footer(work_help_end(example));
    command->callback([options, work, &run] {
        run = [options, work](const Surroundings& surroundings) { return work(*options, surroundings); };
    });
    return command;
}

}  // namespace coldtally::cli
