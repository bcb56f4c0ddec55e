#include "coldtally/error.hpp"
#include "files.hpp"
#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string file;
};

constexpr const char* parts =
    R"(The file is a JSON object, over as many lines as you like; all parts may be left out, )"
    R"(and what is missing is said:

  {"people":   [{"name": "A. Person", "role": "coordinator", "office": "555-0101", "home": "555-0102",
                 "mobile": "555-0103", "email": "a@example.org"},
                {"name": "B. Person", "role": "nurse", "mobile": "555-0104", "alternate": true}],
   "backups":  [{"name": "Other Clinic", "contact": "front desk", "phone": "555-0105", "address": "1 Mill Lane",
                 "agreement": "by letter", "agreed": "2026-03-30", "agreed_until": "2028-03-30",
                 "power": "generator", "distance": "14 km", "capacity": "200 doses at 2 to 8 C"}],
   "services": [{"what": "power company", "phone": "555-0106"},
                {"what": "refrigerator repair", "phone": "555-0107", "name": "C. Fitter"}],
   "notify":   [{"what": "health department", "phone": "555-0108"}],
   "containers": "two in room 4, top shelf; coolants in the freezer",
   "packing":  "coolants, card, stock with the probe in its middle, card, coolants",
   "steps":    "keep the doors shut; write down time and temperatures; call",
   "reviewed": "2026-04-01", "reviewed_by": "A. Person", "review_due": "2027-04-01",
   "signatures": [{"name": "A. Person", "signed": "2026-04-01"}]}

People are in calling order, backup places in the order of choice. A new plan replaces the one before as a whole;
the plan field of coldtally plan --format json is such an object. Who would rather fill in a table with every line
explained begins with coldtally template plan, and gives it to coldtally start.)";

int new_plan(const Options& options, const Surroundings& surroundings) {
    // The file goes on as text, so that the library reads it as strictly as any entry: a part that stands twice is
    // refused.
    const std::string given = read_file(options.file);
    const char* const blanks = " \t\r\n";
    const std::size_t open = given.find_first_not_of(blanks);
    if (open == std::string::npos || given[open] != '{')
        throw Error(Code::bad_json, file_name(options.file) + ": must be one JSON object, the parts of a plan");
    const std::size_t first = given.find_first_not_of(blanks, open + 1);
    std::string draft = draft_text(fields_of("plan", options));
    draft.pop_back();
    if (first != std::string::npos && given[first] != '}') draft += ',';
    Ledger ledger(options.ledger, Ledger::Mode::write);
    const WorkDone posted = Work(ledger, surroundings.now).post(draft + given.substr(open + 1), meant(options));
    return say(posted, options, ledger, surroundings);
}

}  // namespace

void add_new_plan(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "new-plan", "Posts the contingency plan from a file, and says what is missing in it",
                 new_plan, options, "coldtally new-plan plan.json");
    command->add_option("FILE", options->file, "the plan's parts as JSON; -: standard input")->required();
    command->footer(std::string(parts) + "\n\n" + work_help_end("coldtally new-plan plan.json"));
}

}  // namespace coldtally::cli
