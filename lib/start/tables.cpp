#include "start/tables.hpp"

#include <algorithm>
#include <stdexcept>

namespace coldtally::start {

namespace {

constexpr std::string_view note_says =
    "why, where something unusual is meant: a limit that looks mistyped is taken only with it";

constexpr Column site[] = {
    {"name", true, "the clinic's name, as every list shows it", "Harbour Street Clinic (invented)"},
    {"zone", true, "its time zone, by its IANA name", "America/Chicago", "time zone|timezone"},
    {"unmonitored limit", false,
     "time without known temperature that does not yet mean quarantine; empty: none", ""},
    {"stale after", false, "after this time readings that have not come count as not known; empty: 24 h", ""},
    {"note", false, note_says, ""},
};
constexpr Column places[] = {
    {"place", true, "a short id of your own, typed in every command", "main", "id"},
    {"name", true, "what people call it", "Refrigerator in room 4"},
    {"type", true, "refrigerator, freezer, ultra-cold freezer, transport container or room", "refrigerator"},
    {"low", false, "the lowest temperature allowed in it, with its scale: 2C, 36F, or both as 2C/36F", "2C/36F"},
    {"high", false, "the highest, likewise", "8C/46F"},
    {"max gap", false, "the longest step between two readings that still counts as known; empty: 1 h", ""},
    {"max check gap", false, "the same of checks by hand; empty: 18 h", ""},
    {"near", false, "how far a reading in range speaks for the time around it; empty: 30 min", ""},
    {"note", false, note_says, ""},
};
constexpr Column probes[] = {
    {"probe", true, "a short id of your own", "p1", "id|logger"},
    {"scale", true, "C or F, as it shows; it never changes", "C"},
    {"serial", false, "its serial number", "", "serial number"},
    {"place", false, "the id of the place it is in", "main"},
    {"since", false, "since when it is there; empty: now", ""},
    {"note", false, note_says, ""},
};
constexpr Column certificates[] = {
    {"probe", true, "the id of the probe", "p1"},
    {"expires", true, "its last day", "2027-09-15", "expiry|expires on|valid through"},
    {"number", false, "the number of the certificate", "", "certificate"},
    {"tolerance", false, "in degrees of the probe's scale; empty: readings are taken as exact", "0.5"},
    {"corrections", false, "what to add at which indication, as 0=0.2 5=0.1; empty: nothing", "", "correction"},
    {"since", false, "since when it holds; empty: now", ""},
    {"note", false, note_says, ""},
};
constexpr Column makers[] = {
    {"maker", true, "the manufacturer's name", "Invented Works", "manufacturer|name"},
    {"contact", false, "whom to ask there about doses that were too warm or too cold", "stability desk"},
    {"phone", false, "telephone", "555-0102", "telephone"},
    {"email", false, "e-mail", "", "e-mail"},
};
constexpr Column products[] = {
    {"product", true, "a short id of your own", "elm", "id|vaccine"},
    {"name", true, "what people call it", "Elm (invented)"},
    {"low", false, "its lowest storage temperature by its leaflet, as of places", "2C/36F"},
    {"high", false, "its highest", "8C/46F"},
    {"freeze limit", false, "at or below it doses count as frozen; empty: no temperature counts as freezing", ""},
    {"doses per vial", false, "doses in a vial; empty: vials of several doses would be taken as single doses", "1",
     "doses a vial|doses/vial"},
    {"maker", false, "the manufacturer's name, as in [makers]", "Invented Works", "manufacturer"},
    {"cvx", false, "its CVX code", ""},
    {"gtin", false, "the numbers in the codes on its boxes, with blanks between them", ""},
    {"note", false, note_says, ""},
};
constexpr Column allowances[] = {
    {"product", true, "the id of the product", "elm"},
    {"low", true, "where the band begins", "8C/46F"},
    {"high", true, "where it ends", "23C"},
    {"time", true, "how long in all", "5 h"},
    {"source", true, "where that is written", "leaflet (invented), part 4"},
};
constexpr Column after_opening[] = {
    {"product", true, "the id of the product", "elm"},
    {"event", true, "what was done: first puncture, mixed, thawed", "first puncture"},
    {"time", true, "how long it may be used from then on", "27 days"},
};
constexpr Column lots[] = {
    {"product", false, "the id of the product; may be empty where the lot is known", "elm", "vaccine"},
    {"lot", true, "the number on the box", "K0123", "lot number|lot no|batch"},
    {"expiry", false, "the last day on the box, 2027-05-31 or 2027-05; may be empty where the lot is known",
     "2027-05-31", "expiration|expiration date|expiry date|expires|exp"},
    {"place", false, "the id of the place; may be empty where there is one refrigerator or freezer", "main",
     "location"},
    {"doses", true, "how many are there", "40", "quantity|qty|number of doses"},
    {"fund", false,
     "who paid for them; a minus sign: nobody's in particular; empty in all rows where stocks are not kept apart",
     "", "funding|funding source"},
    {"mark", false, "what keeps them apart from others of the lot in that place: a bin, a bag", ""},
    {"received", false, "since when they are there; empty: now", "", "received on|date received"},
    {"note", false, note_says, ""},
};
constexpr Column trained[] = {
    {"person", true, "who", "A. Person", "name"},
    {"topic", true, "in what", "storage and handling"},
    {"on", false, "when; empty: now", "", "date|trained on"},
    {"due", false, "the last day by which to be trained again", "2027-03-02"},
    {"reference", false, "where the proof is kept", "folder 3"},
};
constexpr Column people[] = {
    {"name", true, "who", "A. Person", "person"},
    {"role", true, "what for", "coordinator"},
    {"office", false, "telephone in the office", "555-0101"},
    {"home", false, "at home", ""},
    {"mobile", false, "mobile", "555-0103"},
    {"email", false, "e-mail", "", "e-mail"},
    {"alternate", false, "yes: stands in for the coordinator", ""},
};
constexpr Column backup_places[] = {
    {"name", true, "the place that would take the stock", "Other Clinic (invented)", "place"},
    {"contact", false, "whom to ask for", "front desk"},
    {"phone", false, "telephone", "555-0105", "telephone"},
    {"address", false, "where it is", "1 Mill Lane"},
    {"agreement", false, "how it was agreed", "by letter"},
    {"agreed", false, "on which day", "2026-03-30"},
    {"agreed until", false, "its last day", ""},
    {"power", false, "what it has when the mains fail", "generator"},
    {"distance", false, "how far", "14 km"},
    {"capacity", false, "how much it can take", "200 doses at 2 to 8 C"},
};
constexpr Column services[] = {
    {"what", true, "power company, refrigerator repair, alarm", "power company"},
    {"phone", true, "telephone", "555-0106", "telephone"},
    {"name", false, "whom to ask for", ""},
};
constexpr Column notify[] = {
    {"what", true, "health department, supervisor", "health department"},
    {"phone", true, "telephone", "555-0108", "telephone"},
    {"name", false, "whom to ask for", ""},
};
constexpr Column plan[] = {
    {"steps", false, "what to do first", "keep the doors shut; write down time and temperatures; call"},
    {"containers", false, "where containers and coolants are", "two in room 4, top shelf"},
    {"packing", false, "how to pack", "coolants, card, stock with the probe in its middle, card, coolants"},
    {"reviewed", false, "the day of its last review", "2026-04-01"},
    {"reviewed by", false, "who reviewed it", "A. Person"},
    {"review due", false, "the last day by which to review it again", "2027-04-01"},
};
constexpr Column signatures[] = {
    {"name", true, "who has read it", "A. Person"},
    {"signed", true, "on which day", "2026-04-01", "date"},
};
constexpr Column rules[] = {
    {"programme", true, "whose rules these are", "Tern County Vaccine Programme (invented)", "program"},
    {"source", true, "where they are written", "site handbook, chapter 4"},
    {"dated", true, "the date of that source", "2025-11-01", "date"},
    {"longest trip", false, "how long doses may travel", "7 h"},
    {"repay loans within", false, "days in which doses lent between funds must be given back", "45"},
    {"note", false, note_says, ""},
};
constexpr Column report_when[] = {
    {"rule", true, "a name of your own for the condition", "warm hour"},
    {"text", false, "the programme's own words", ""},
    {"form", true,
     "run (a time without a break), sum (times that add up), reading (any single one), pattern (so many excursions)",
     "run"},
    {"temperature", false, "above, at or above, below, at or below; needed but for a pattern", "above"},
    {"limit", false, "of that temperature, as of places; empty: the place's own", "9C/48F"},
    {"at least", false, "run, sum: a time; pattern: a number. This, or more than", "1 h"},
    {"more than", false, "the same where the threshold itself is not yet enough", ""},
    {"within", false, "sum, pattern: the time in which they add up", ""},
    {"places", false, "types of places, with semicolons between them; empty: all", "refrigerator"},
    {"products", false, "ids of products, with semicolons between them; empty: all", ""},
};
constexpr Column due[] = {
    {"step", true,
     "supervisor told, health department told, manufacturer told, answer, cause, action or closed", "supervisor told"},
    {"within", true, "the time from when it was noticed; of an answer, from when it was asked for", "1 h"},
    {"if reportable", false, "yes: only where a condition above was met", ""},
};
constexpr Column keep[] = {
    {"records", true, "which records", "temperature logs"},
    {"years", true, "for how many years", "4"},
};
constexpr Column checks[] = {
    {"places", false, "types of places, with semicolons between them; empty: all", "refrigerator; freezer"},
    {"days", true, "days of the week, with blanks between them", "Monday Tuesday Wednesday Thursday Friday",
     "weekdays"},
    {"per day", true, "how often a day", "2"},
    {"by", false, "by which times, with blanks between them, as many as a day", "09:00 16:30"},
    {"min max", false, "yes: with minimum and maximum", "yes", "min/max"},
};
constexpr Column every[] = {
    {"what", true,
     "plan review, backup agreement, training, count, logger reading, log review, certificate, service or self-audit",
     "training"},
    {"days", true, "after how many days it is due again", "365"},
};

constexpr Table all[] = {
    {"site", "The clinic itself.", site, true},
    {"places",
     "All places in which doses can be: refrigerators, freezers, transport containers, rooms. Each needs its limits, "
     "a room too.",
     places},
    {"probes", "Thermometers and loggers, and where they are.", probes},
    {"certificates", "Their calibration.", certificates},
    {"makers", "Manufacturers, and how to ask them.", makers},
    {"products",
     "The vaccines. Copy each limit from the product's own leaflet: nothing is known here of any product.", products},
    {"allowances",
     "What a product's own documents permit outside its range. Without a row here, all time out of range waits for "
     "guidance.",
     allowances},
    {"after opening", "How long a product may be used after its vial was opened, mixed or thawed.", after_opening},
    {"lots", "The stock: a row for each lot, fund and place. A new lot needs its expiry.", lots},
    {"trained", "Who was trained in what.", trained},
    {"people", "Whom to call, in the order of calling. These begin the contingency plan.", people},
    {"backup places", "Where stock can go, in the order of choice.", backup_places},
    {"services", "Utilities and repair.", services},
    {"notify", "Who must be told, in this order.", notify},
    {"plan", "What the plan says in words.", plan, true},
    {"signatures", "Who has read the plan.", signatures},
    {"rules", "Whose rules they are. What is left out, the programme does not ask; nothing is assumed for it.", rules,
     true},
    {"report when", "An excursion must be reported where any one of these conditions is met.", report_when},
    {"due", "What is due after something was noticed.", due},
    {"keep", "How long records must be kept.", keep},
    {"checks", "How often temperatures are to be read by hand.", checks},
    {"every", "What is due again and again.", every},
};

constexpr std::string_view of_clinic[] = {"site",       "places",        "probes", "certificates", "makers", "products",
                                          "allowances", "after opening", "lots",   "trained",      "people"};
constexpr std::string_view of_lots[] = {"lots"};
constexpr std::string_view of_plan[] = {"people", "backup places", "services", "notify", "plan", "signatures"};
constexpr std::string_view of_rules[] = {"rules", "report when", "due", "keep", "checks", "every"};

}  // namespace

std::span<const Table> tables() { return all; }

const Table* find_table(std::string_view name) {
    const auto it = std::ranges::find(all, plain_name(name), [](const Table& t) { return plain_name(t.name); });
    return it == std::end(all) ? nullptr : it;
}

const Table& table(std::string_view name) {
    const Table* found = find_table(name);
    if (!found) throw std::logic_error("no such table");
    return *found;
}

const Column* find_column(const Table& table, std::string_view title) {
    const std::string wanted = plain_name(title);
    const auto also = [&](const Column& c) {
        for (std::size_t from = 0; from < c.also.size();) {
            const std::size_t end = std::min(c.also.find('|', from), c.also.size());
            if (plain_name(c.also.substr(from, end - from)) == wanted) return true;
            from = end + 1;
        }
        return false;
    };
    for (const Column& c : table.columns)
        if (plain_name(c.name) == wanted) return &c;
    for (const Column& c : table.columns)
        if (also(c)) return &c;
    return nullptr;
}

std::vector<const Table*> tables_of(StartTemplate which) {
    std::span<const std::string_view> names = of_clinic;
    if (which == StartTemplate::lots) names = of_lots;
    if (which == StartTemplate::plan) names = of_plan;
    if (which == StartTemplate::rules) names = of_rules;
    std::vector<const Table*> out;
    for (const auto name : names) out.push_back(&table(name));
    return out;
}

std::string plain_name(std::string_view name) {
    std::string out;
    bool gap = false;
    for (const char c : name) {
        if (c == ' ' || c == '-' || c == '_' || c == '\t') {
            gap = !out.empty();
            continue;
        }
        if (gap) out += ' ';
        gap = false;
        out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return out;
}

}  // namespace coldtally::start
