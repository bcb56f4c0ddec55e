#include "commands.hpp"

#include <algorithm>

#include "options.hpp"

namespace coldtally::cli {

namespace {

constexpr Command all[] = {
    {"today", Group::every_day, "one screen to begin and end the day with",
     "morning, evening, daily, overview, summary, screen, to do, round, opening, closing time, glance"},
    {"lists", Group::every_day, "all doses: discard, quarantine or keep, and why",
     "discard, throw away, quarantine, keep, do not use, usable, may be used, safe to use, spoiled, spoilt, "
     "ruined, status, good, bad, warm vaccine, frozen vaccine, expired, use"},
    {"stock", Group::every_day, "which doses are where, where all others went",
     "inventory, on hand, how many, what is where, what do we have, balance, amount, vaccine, holdings, "
     "shelf, left"},
    {"dates", Group::every_day, "until when doses may be used, and which first",
     "expiry, expiration, expired, expiring, expire, out of date, outdated, last day, use first, use by, "
     "best before, shelf life, soon, rotate, rotation, first expiring first out"},
    {"check", Group::every_day, "a temperature was read; a logger's files",
     "temperature, read temperature, thermometer, fridge, refrigerator, freezer, log, temperature log, "
     "minimum, maximum, min max, twice a day, display, degrees",
     add_check},
    {"import", Group::every_day, nullptr,
     "logger, data logger, log, log file, temperature log, temperature, download, csv, spreadsheet, "
     "read out, usb, readings, thermometer",
     add_import},
    {"receive", Group::every_day, "a delivery has come",
     "delivery, deliver, delivered, shipment, arrive, arrival, order, box, new vaccine, incoming, take in, "
     "unpack box",
     add_receive},
    {"move", Group::every_day, "doses go to another place",
     "shelf, other fridge, relocate, put, bring, carry, mark, separate, set apart", add_move},
    {"give", Group::every_day, "a dose is given",
     "administer, administration, dose given, vaccinate, vaccination, inject, injection, shot, jab, patient, "
     "immunise, immunize",
     add_give},
    {"beyond-use", Group::every_day, "a vial is opened, thawed or mixed",
     "open vial, opened vial, open, vial, puncture, multidose vial, reconstitute, mix, thaw, thawed, use by, "
     "dilute",
     add_beyond_use},
    {"waste", Group::every_day, "doses are thrown away, sent back",
     "throw away, throw out, discard, dispose, disposal, bin, trash, broken vial, broke, dropped, spill, "
     "expired, wastage, destroy, destroyed, spoiled, vial, leftover",
     add_waste},
    {"return", Group::every_day, nullptr, "send back, sent back, give back, credit, supplier, expired, recall",
     add_give_back},
    {"transfer", Group::every_day, "doses go to another site, with their history",
     "other site, other clinic, another clinic, send away, redistribute, give away, hand over, lend, ship, "
     "share",
     add_transfer},
    {"handover", Group::every_day, nullptr,
     "transfer sheet, history, sheet, other site, other clinic, paper, hand over", add_handover},
    {"count", Group::every_day, "doses are counted; what the code on a box means",
     "inventory, stocktake, stocktaking, physical count, recount, missing dose, variance, discrepancy, lost, "
     "lost dose, found, difference, does not match",
     add_count},
    {"scan", Group::every_day, nullptr,
     "barcode, bar code, data matrix, qr, gtin, code, box, scanner, label"},
    {"entries", Group::every_day, "what was entered, what is defined; undoing it",
     "what was entered, find entry, entry, entry number, log, journal, history, audit trail, who entered, yesterday, "
     "today, note, search"},
    {"show", Group::every_day, nullptr,
     "definition, defined, settings, range, limits, history of a definition, who changed, changed, product, place, "
     "probe, person, what holds, look up"},
    {"takeback", Group::every_day, nullptr,
     "undo, mistake, wrong, wrong entry, error, delete, remove, correct, correction, cancel, revert, void, "
     "typo, twice, change entry, edit",
     add_takeback},

    {"notice", Group::wrong, "out of range, power out: opens an incident",
     "power failure, power cut, power, outage, blackout, electricity, alarm, fridge broken, fridge warm, "
     "fridge, refrigerator, freezer, broken fridge, failed, failure, too warm, too cold, door, door open, "
     "excursion, out of range, incident, emergency, something wrong, breakdown, freeze, frozen, unplugged, "
     "temperature alarm",
     add_notice},
    {"incident", Group::wrong, "what happened, what is still to be done",
     "what to do, to do, deadline, due, excursion, case, power failure, report", add_incident},
    {"plan", Group::wrong, "whom to call, where the stock can go",
     "contingency, emergency, emergency plan, power failure, power cut, whom to call, call, telephone, "
     "phone number, backup fridge, generator, evacuate, outage"},
    {"move-list", Group::wrong, "what must leave a unit, in which order",
     "evacuate, evacuation, transport, power failure, which first, relocate, rescue, fridge broken, "
     "broken fridge, "
     "defrost, defrosting, clean fridge"},
    {"pack", Group::wrong, "a container leaves, comes back; its journey",
     "transport, cooler, cool box, box, container, carrier, evacuate, evacuation, off site, outreach, "
     "travel, journey, take along, lid",
     add_pack},
    {"unpack", Group::wrong, nullptr, "bring back, come back, arrive, arrival, transport, cooler, container, travel",
     add_unpack},
    {"trip", Group::wrong, nullptr, "journey, transport, travel, cooler, carrier, outreach, container"},
    {"hold", Group::wrong, "doses must not be used for now",
     "quarantine, do not use, set aside, recall, block, suspect, stop, doubt, keep apart, freeze stock", add_hold},
    {"step", Group::wrong, "who was told, what was done; the report sent",
     "told, tell, call, supervisor, health department, cause, action, close, close incident, closed, phone, "
     "telephoned, inform",
     add_step},
    {"report", Group::wrong, nullptr,
     "health department, manufacturer, supervisor, notify, tell, inform, authority, excursion", add_report},
    {"answer", Group::wrong, "what manufacturer, health department decided",
     "reply, manufacturer, stability, letter, decision, response, release", add_answer},
    {"guidance", Group::wrong, nullptr,
     "quarantine, release, end quarantine, lift hold, lift quarantine, decision, manufacturer, recall, "
     "verdict, stability, health department, letter",
     add_guidance},
    {"excursions", Group::wrong, "when a place was out of range, what was inside",
     "out of range, too warm, too cold, temperature, warm, cold, hot, frozen, freeze, how long, inside, "
     "breach, fridge warm, fridge, refrigerator, freezer, excursion"},
    {"explain", Group::wrong, "why doses are on their list", "why, reason, history, because, trace, explanation"},
    {"review", Group::wrong, "doses given that may need review; of a recall",
     "patient, dose given, revaccinate, revaccination, who was given, wrong dose, wrong dose given, bad dose, "
     "affected patient, expired dose given, recall"},
    {"follow-up", Group::wrong, nullptr,
     "recall, lot recall, recalled, patient, who was given, who got, call back, lot, batch"},
    {"patient-step", Group::wrong, "what was done about such a dose",
     "patient told, tell patient, patient, revaccinate, revaccination, repeat, repeat dose, called", add_patient_step},

    {"readiness", Group::known, "what an inspector would find; programme's rules",
     "inspection, inspector, audit, auditor, visit, missing, overdue, compliance, calibration due"},
    {"rules", Group::known, nullptr, "programme, program, requirement, regulation, compliance, standard, condition"},
    {"conditions", Group::known, "how a place was: in a window; month by month",
     "mean, average, mean kinetic temperature, kinetic, mkt, coverage, temperature, gap, minimum, maximum, "
     "monitored, statistics"},
    {"unit", Group::known, nullptr,
     "history, ageing, aging, old fridge, trend, month, monthly, service, fridge, refrigerator, freezer, "
     "repair, replace fridge"},
    {"accountability", Group::known, "where every dose of a period went",
     "reconcile, reconciliation, month, monthly report, lost dose, wastage rate, balance, usage, "
     "where did doses go, dose report, statistics"},
    {"loans", Group::known, "between funds: what is owed; notes it, repaid",
     "borrow, borrowing, owe, owing, debt, lend, fund, private, public"},
    {"loan", Group::known, nullptr, "borrow, borrowing, lend, lent, wrong fund, fund", add_loan},
    {"repayment", Group::known, nullptr, "repay, pay back, give back, borrow, borrowing, fund, owe", add_repayment},
    {"training", Group::known, "who was trained in what; notes it",
     "trained, staff, course, lapsed, competence, people, colleague"},
    {"trained", Group::known, nullptr, "training, staff, course, teach, colleague", add_trained},
    {"immunizations", Group::known, "doses given, to and from other systems (FHIR)",
     "fhir, registry, record system, health record, patient, dose given", add_immunizations},
    {"give-records", Group::known, nullptr, "fhir, registry, record system, health record, upload, dose given",
     add_give_records},

    {"start", Group::setting_up, "one file in which a clinic describes itself",
     "start, begin, set up, setup, new ledger, create, new clinic, spreadsheet, csv, excel, opening stock, initial "
     "stock, opening balance, import stock, first, many lots, bulk",
     add_start},
    {"template", Group::setting_up, nullptr,
     "start, begin, set up, setup, form, example file, spreadsheet, csv, excel, opening stock, rules, programme, "
     "contingency, emergency plan, fill in",
     add_template},
    {"site", Group::setting_up, "the clinic; its refrigerators, other places",
     "start, begin, set up, setup, new ledger, create, clinic, time zone, first", add_site},
    {"place", Group::setting_up, nullptr,
     "fridge, refrigerator, freezer, cooler, container, room, new fridge, range, limit, define, set up", add_place},
    {"product", Group::setting_up, "vaccines, their lots, whom to ask about them",
     "vaccine, new vaccine, range, limit, storage, allowance, define, set up", add_product},
    {"lot", Group::setting_up, nullptr, "batch, expiry, expiration, new lot, wrong expiry, lot number, define",
     add_lot},
    {"maker", Group::setting_up, nullptr, "manufacturer, telephone, phone number, contact, set up", add_maker},
    {"probe", Group::setting_up, "thermometers, their calibration, their place",
     "thermometer, sensor, logger, data logger, new logger, define, set up", add_probe},
    {"certificate", Group::setting_up, nullptr, "calibration, calibrate, correction, accuracy, thermometer",
     add_certificate},
    {"assign", Group::setting_up, nullptr, "put probe, probe, swap logger, thermometer, sensor, logger, install",
     add_assign},
    {"new-plan", Group::setting_up, "the contingency plan",
     "contingency, emergency plan, change plan, phone number, update plan, set up", add_new_plan},

    {"verify", Group::file, "is it as it was posted?",
     "damaged, damage, tamper, tampered, integrity, corrupt, check file, chain, altered, file", add_verify},
    {"backup", Group::file, "copies it; makes a ledger of a copy",
     "copy, save, usb, stick, archive, keep, file, move file, new computer", add_backup},
    {"restore", Group::file, nullptr,
     "damaged, damage, lost file, corrupt, get back, recover, backup, copy, older format, broken file, file, "
     "new computer",
     add_restore},
    {"export", Group::file, "all entries: out; into a new file; more in",
     "audit trail, entries, print, take out, json, file, copy", add_export},
    {"replay", Group::file, nullptr, "rebuild, exported, import entries, json, file", add_replay},
    {"post", Group::file, nullptr, "entries, enter, many entries, batch, write, json, upload, spreadsheet", add_post},
    {"help", Group::file, "finds a command: coldtally help open vial", "find, search, manual, which command", add_help},
};

constexpr const char* headings[] = {"Every day", "Something is wrong", "What must be known", "Setting up", "The file"};

std::string text_line(std::size_t width, std::string names, const std::string& line) {
    names.resize(std::max(names.size(), width), ' ');
    return "  " + names + "  " + line + "\n";
}

}  // namespace

std::span<const Command> commands() { return all; }

const Command* find_command(std::string_view name) {
    const auto* found = std::find_if(std::begin(all), std::end(all), [&](const Command& c) { return c.name == name; });
    return found == std::end(all) ? nullptr : found;
}

std::string overview() {
    struct Line {
        Group group;
        std::string names, says;
    };
    std::vector<Line> lines;
    for (const Command& c : all)
        if (c.line)
            lines.push_back({c.group, c.name, c.line});
        else
            lines.back().names += std::string(", ") + c.name;
    std::size_t width = 0;
    for (const Line& line : lines) width = std::max(width, line.names.size());
    std::string out =
        "coldtally: which vaccine doses were where, how warm, and which must not be used\n"
        "Usage: coldtally COMMAND [OPTIONS] [WORDS]\n";
    for (const Line* line = lines.data(); line != lines.data() + lines.size(); ++line) {
        if (line == lines.data() || line->group != line[-1].group)
            out += std::string(headings[static_cast<int>(line->group)]) + ":\n";
        out += text_line(width, line->names, line->says);
    }
    return out +
           "coldtally COMMAND --help says more. The ledger is the first word where that page\n"
           "has LEDGER, or --ledger, or COLDTALLY_LEDGER; initials: --by or COLDTALLY_BY.\n"
           "Exit status: 0 done; 1 the answer is no; 2 refused, nothing written; 3 failed.\n";
}

void describe(const Command& command, CLI::App& program, Run& run) {
    program.get_formatter()->column_width(28);  // what is added takes these from it
    program.set_help_flag("-h,--help", "prints this help");
    if (command.add)
        command.add(program, run);
    else
        add_question(command.name, program, run);
}

std::string page_of(const Command& command) {
    CLI::App program("", "coldtally");
    Run none;
    describe(command, program, none);
    return program.get_subcommand(command.name)->help("coldtally");
}

}  // namespace coldtally::cli
