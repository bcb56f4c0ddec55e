#include "drafts/draft.hpp"

#include <algorithm>
#include <set>

#include "coldtally/error.hpp"
#include "conditions/display_memory.hpp"
#include "conditions/fit.hpp"
#include "drafts/come_back.hpp"
#include "drafts/do_not_use.hpp"
#include "drafts/draft_warnings.hpp"
#include "drafts/filling.hpp"
#include "drafts/follow_up_draft.hpp"
#include "drafts/handover_file.hpp"
#include "drafts/late_arrivals.hpp"
#include "drafts/limit_doubts.hpp"
#include "drafts/looser.hpp"
#include "drafts/naming.hpp"
#include "drafts/opening.hpp"
#include "drafts/read_back.hpp"
#include "drafts/redefine.hpp"
#include "drafts/scan_draft.hpp"
#include "entries/parse.hpp"
#include "stock/beside_notes.hpp"
#include "stock/stock.hpp"
#include "text/json_text.hpp"
#include "words/conditions.hpp"
#include "words/drafts_limits.hpp"
#include "words/drafts_warnings.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

using text::Json;

namespace {

constexpr const char* where = "draft";

void must_say_why(const std::vector<Remark>& doubts) {
    if (doubts.empty()) return;
    throw Error(Code::missing_field,
                "note: must say why: " + english().say(*words::semicolons(doubts)) +
                    ". NOT WRITTEN: state the limits as they are meant, or post it again with the note");
}

}  // namespace

namespace {

class Draft {
public:
    Draft(const ledger::Store& store, Json fields, Instant now)
        : store_(store), known_(ledger::Known::load(store, store.tip().entry)), fields_(std::move(fields)), now_(now) {}

    Drafted make() {
        const std::string kind = stated(fields_, "kind");
        set_instants(kind);
        const Question question{at_, std::nullopt};
        World world(store_, head_of(store_, question, now_), known_);
        Filling filling(world, out_.filled);
        take_scan(world, fields_, out_.filled, out_.warnings);
        std::vector<Field> kept;
        std::vector<std::string> without;
        if (is_redefined(kind)) {
            Json copy = fields_;
            without = take_without(copy);
            keep_known(known_, fields_, kept);
        }
        std::optional<HandoverFile> handover;
        std::optional<std::string> no_hold;
        if (kind == "receive") {
            if (is_stated(fields_, "no_hold")) no_hold = stated(fields_, "no_hold");
            handover.emplace(fields_, known_.zone());
            receive(world, filling);
        }
        if (kind == "move")
            move(filling);
        else if (kind == "give" || kind == "waste" || kind == "beyond-use")
            out_of_vials(world, filling);
        else if (kind == "return" || kind == "transfer" || kind == "count")
            filling.holding(fields_, fields_);
        else if (kind == "check")
            filling.scale_of(fields_);
        else if (kind == "hold" || kind == "guidance")
            filling.product_of_lot(fields_);
        const bool whole_place =
            kind == "hold" && is_stated(fields_, "place") && !fields_.contains("lot") && !fields_.contains("product");
        if (kind == "follow-up")
            for (const auto& fields : follow_up_drafts(world, fields_, out_.filled)) add(world, fields);
        else if (whole_place)
            hold_all(world, filling);
        else
            add(world, fields_);
        if (auto* product = kind == "product" ? std::get_if<Product>(&out_.entries.back().fact) : nullptr)
            keep_allowances(known_, *product, without, kept, out_.filled);
        if (!kept.empty()) out_.filled.push_back(words::kept_as_it_was(words::listed(kept)));
        warn_all(world);
        const LateArrival late(store_, known_, now_, out_.entries.back());
        if (handover) handover->check(world, out_, late.any());
        insist(world);
        for (const auto& entry : out_.entries) read_it_back(entry);
        const bool noted = handover && handover->finish(out_);
        late.finish(no_hold, noted, out_);
        return std::move(out_);
    }

private:
    void read_it_back(const Entry& entry) {
        const auto* certificate = std::get_if<Certificate>(&entry.fact);
        const Probe* probe = certificate ? known_.probe(certificate->probe) : nullptr;
        const auto both = redefined(known_, store_, entry.fact);
        const bool takes_back = std::holds_alternative<Void>(entry.fact);
        for (const auto& line : read_back(both && takes_back ? both->after : entry.fact,
                                          probe ? probe->scale : Scale::C))
            out_.read_back.push_back(line.text());
        if (certificate || std::holds_alternative<Assign>(entry.fact) || both) out_.may_change_answers = true;
        if (both)
            for (auto& one : looser_than(known_, *both)) out_.looser.push_back(std::move(one));
    }

    /// Definitions need no instant, but keep one that is stated.
    static bool is_timeless(const std::string& kind) {
        return kind == "site" || kind == "product" || kind == "lot" || kind == "place" || kind == "probe" ||
               kind == "maker" || kind == "readings";
    }

    void set_instants(const std::string& kind) {
        const Zone& zone = known_.zone();
        for (const char* field : {"at", "since", "through", "use_by"})
            if (is_stated(fields_, field) &&
                !(std::string_view(field) == "use_by" && stated(fields_, field).size() <= 10)) {
                try {
                    fields_[field] = typed_instant(stated(fields_, field), zone, now_).text();
                } catch (const Error& e) {
                    throw Error(e.code(), std::string(field) + ": " + e.what());
                }
            }
        if (is_stated(fields_, "at")) {
            at_ = parse_instant(stated(fields_, "at"), zone);
        } else {
            at_ = head_of(store_, Question{}, now_).at;  // now, or the last posting where the clock has gone back
            if (is_timeless(kind)) return;
            fields_["at"] = at_.text();
            out_.filled.push_back(words::at_instant(zone.local_text(at_)));
        }
    }

    /// Doses of which a vial may have to be opened, and the entries of that.
    void out_of_vials(World& world, Filling& filling) {
        find_unopened(world, fields_, out_.filled);
        filling.holding(fields_, fields_);
        out_.opening = take_opening(world, fields_, now_, out_.filled);
        if (out_.opening)
            for (const auto& fields : opening_entries(*out_.opening, fields_)) add(world, fields);
    }

    /// The world knows none of the entries: what is taken out of a vial that is opened with it is judged where it came
    /// from.
    void warn_all(World& world) {
        if (!out_.opening) {
            for (const auto& entry : out_.entries) {
                warn(world, entry, out_);
                say_besides(world, entry);
                out_.opening = std::visit([&](const auto& fact) { return offer(world, fact); }, entry.fact);
            }
        } else {
            Entry last = out_.entries.back();
            if (auto* give = std::get_if<Give>(&last.fact)) give->mark = out_.opening->from.mark;
            if (auto* waste = std::get_if<Waste>(&last.fact)) waste->mark = out_.opening->from.mark;
            warn(world, last, out_);
        }
        if (out_.opening) tell_opening(world, *out_.opening, out_);
    }

    void say_besides(World& world, const Entry& entry) {
        std::optional<Remark> said;
        if (const auto* move = std::get_if<Move>(&entry.fact)) said = do_not_use(world, *move);
        if (const auto* check = std::get_if<Check>(&entry.fact)) said = display_memory(world, *check);
        if (said) out_.warnings.push_back(std::move(*said));
    }

    static std::optional<Opening> offer(World& world, const Give& g) {
        return opening_offer(world, {g.place, g.product, g.lot, g.fund, g.mark}, g.doses, true);
    }
    static std::optional<Opening> offer(World& world, const Waste& w) {
        return opening_offer(world, {w.place, w.product, w.lot, w.fund, w.mark}, w.doses, false);
    }
    template <class Other>
    static std::optional<Opening> offer(World&, const Other&) { return std::nullopt; }

    void receive(World& world, Filling& filling) {
        const std::string number = stated(fields_, "lot");
        if (!is_stated(fields_, "expiry")) {
            filling.product_of_lot(fields_);
            filling.receiving(fields_);
            return;
        }
        // The expiry on the box: defines a new lot, and must agree with what is known of an old one.
        const std::string expiry = stated(fields_, "expiry");
        fields_.erase("expiry");
        if (!is_stated(fields_, "product")) {
            if (world.lots_of(number).empty())
                throw Error(Code::missing_field, "product: must be stated: lot " + text::quoted(number) + " is new");
            filling.product_of_lot(fields_);
        }
        filling.receiving(fields_);
        const std::string product = stated(fields_, "product");
        const auto id = store_.lot(product, number);
        const std::string known = id ? world.known.expiry(store_.lot_definitions(*id)) : std::string();
        if (known.empty()) {
            for (const auto& other : world.lots_of(number))
                if (other.product != product)
                    out_.warnings.push_back(words::lot_of_another_product(
                        text::quoted(number), text::quoted(other.product), text::quoted(product)));
            add(world, Json{{"kind", "lot"},
                            {"by", fields_.value("by", "")},
                            {"product", product},
                            {"lot", number},
                            {"expiry", expiry}});
            filling.note(words::lot_is_new(text::quoted(number)));
        } else if (Date::parse_expiry(known) != Date::parse_expiry(expiry)) {
            throw Error(Code::contradiction, "expiry: " + text::quoted(expiry) + ": lot " + text::quoted(number) +
                                                 " is known with " + text::quoted(known) +
                                                 ": read the label again; if the ledger is wrong, define the lot anew "
                                                 "first, with a note that says why");
        }
    }

    void move(Filling& filling) {
        if (!fields_.contains("from")) fields_["from"] = Json::object();
        if (!fields_.contains("to")) fields_["to"] = Json::object();
        Json& from = fields_["from"];
        Json& to = fields_["to"];
        if (!from.is_object() || !to.is_object())
            throw Error(Code::bad_value, "from, to: must be objects with place and mark");
        const Doses there = filling.holding(fields_, from);
        if (!is_stated(to, "place")) {
            if (!is_stated(to, "mark")) throw Error(Code::missing_field, "to: must state a place, a mark, or both");
            to["place"] = from["place"];
            filling.note(words::to_the_same_place());
        }
        if (!is_stated(to, "mark") && !stated(from, "mark").empty()) {
            to["mark"] = from["mark"];
            filling.note(words::mark_stays(text::quoted(stated(from, "mark"))));
        }
        if (!fields_.contains("doses")) {
            fields_["doses"] = there.count();
            filling.note(words::all_doses_there(there.count()));
        }
    }

    /// All that is in a place, or under a mark in it.
    void hold_all(World& world, Filling& filling) {
        const std::string place = stated(fields_, "place");
        world.place(place);
        std::set<std::pair<std::string, std::string>> lots;
        for (const auto& one : doses_present(world))
            if (one.holding.place == place &&
                (!is_stated(fields_, "mark") || one.holding.mark == stated(fields_, "mark")))
                lots.emplace(one.holding.product, one.holding.lot);
        const Field there = is_stated(fields_, "mark")
                                ? Field(words::place_mark(text::quoted(place), text::quoted(stated(fields_, "mark"))))
                                : Field(text::quoted(place));
        if (lots.empty())
            throw Error(Code::not_there, "place: " + english().say(there) + ": no doses are in it at " +
                                             world.known.zone().local_text(world.head.at) +
                                             ": nothing to hold; a recall states the product");
        for (const auto& [product, lot] : lots) {
            fields_["product"] = product;
            fields_["lot"] = lot;
            add(world, fields_);
        }
        filling.note(words::all_lots_there(there, words::lots(lots.size())));
    }

    void add(World& world, const Json& fields) {
        out_.entries.push_back(entries::parse_entry(fields, &world.known.zone(), where, entries::Form::posted));
    }

    /// What must not pass without a word from the person who posts it.
    void insist(World& world) const {
        if (out_.opening && out_.opening->noted && !out_.entries.back().note)
            must_be_another_vial(world, *out_.opening);
        for (const auto& entry : out_.entries) {
            if (const auto* give = std::get_if<Give>(&entry.fact)) check_token(give->patient, "patient");
            if (const auto* site = std::get_if<Site>(&entry.fact);
                site && site->name.find_first_not_of(" \t") == std::string::npos)
                throw Error(Code::bad_value, "name: must be the site's name, which every list shows, and is empty");
            if (entry.note) continue;
            must_be_meant(entry.fact);
            if (const auto* certificate = std::get_if<Certificate>(&entry.fact))
                if (const Probe* probe = known_.probe(certificate->probe))
                    must_be_read_so(correction_doubts(*certificate, probe->scale));
            if (const auto* check = std::get_if<Check>(&entry.fact)) {
                const Temperature lowest = check->min.value_or(check->temperature);
                const auto& low = world.place(check->place).range.low;
                const Scale other = lowest.scale() == Scale::C ? Scale::F : Scale::C;
                const std::string mistyped = is_in(world.place(check->place).range, other, lowest.thousandths())
                                                 ? "; " + lowest.text() + " would be in range in °" +
                                                       scale_letter(other) + ": state the scale, " + lowest.text() +
                                                       scale_letter(other)
                                                 : std::string();
                if (low && low->in(Scale::C) >= Rational(0) && lowest.celsius() <= Rational(0))
                    throw Error(Code::missing_field, "note: must say what was found and done: " + lowest.text() + " °" +
                                                         scale_letter(lowest.scale()) + " in " +
                                                         text::quoted(check->place) + " is at or below freezing" +
                                                         mistyped +
                                                         ". Keep the doses, mark them DO NOT USE, tell the supervisor. "
                                                         "NOT WRITTEN: post it again with the note");
            }
            if (const auto* move = std::get_if<Move>(&entry.fact); move && move->from_place != move->to_place)
                must_not_freeze(world, move->product, move->to_place);
            if (const auto* receive = std::get_if<Receive>(&entry.fact)) {
                must_not_freeze(world, receive->product, receive->place);
                must_not_be_condemned(world, *receive);
                must_not_come_back_clean(world, *receive);
            }
            if (const auto* lot = std::get_if<Lot>(&entry.fact)) {
                const auto id = store_.lot(lot->product, lot->lot);
                const std::string known = id ? world.known.expiry(store_.lot_definitions(*id)) : std::string();
                if (!known.empty() && Date::parse_expiry(known) != Date::parse_expiry(lot->expiry))
                    throw Error(Code::missing_field, "note: must say why: lot " + text::quoted(lot->lot) +
                                                         " is known with expiry " + text::quoted(known) + ", not " +
                                                         text::quoted(lot->expiry) + "; one lot has one expiry");
            }
        }
    }

    /// Limits that may have been typed wrong, but for those that are known so already.
    void must_be_meant(const Fact& fact) const {
        std::vector<Remark> doubts = limit_doubts(fact);
        if (const auto before = held(known_, store_, fact)) {
            const auto old = limit_doubts(*before);
            std::erase_if(doubts,
                          [&](const auto& doubt) { return std::find(old.begin(), old.end(), doubt) != old.end(); });
        } else {
            for (auto& doubt : time_doubts(fact)) doubts.push_back(std::move(doubt));
        }
        must_say_why(doubts);
    }

    /// Corrections by which a reading out of range may become one in range.
    static void must_be_read_so(const std::vector<Remark>& doubts) {
        if (doubts.empty()) return;
        throw Error(Code::missing_field, "note: must say that the certificate states it so: " +
                                             english().say(doubts.front()) +
                                             (doubts.size() > 1 ? " (and " + std::to_string(doubts.size() - 1) +
                                                                      " more)"
                                                                : "") +
                                             ". NOT WRITTEN: read the certificate again, and post it again with the "
                                             "note");
    }

    /// What was condemned of a lot does not condemn its next delivery, which may be the same recall.
    static void must_not_be_condemned(const World& world, const Receive& r) {
        const auto all = condemned_elsewhere(world, r.product, r.lot, {});
        if (all.empty()) return;
        throw Error(Code::missing_field,
                    "note: must say why they are received for use: guidance says discard for doses of lot " +
                        text::quoted(r.lot) + ": " + english().say(*words::semicolons(all)) +
                        ". NOT WRITTEN: keep the delivery apart, marked DO NOT USE, ask the issuer, and post it again "
                        "with the note; a hold that names the lot and no place holds what comes of it");
    }

    /// Without a history they would count as never exposed.
    static void must_not_come_back_clean(World& world, const Receive& r) {
        const auto may_be = may_come_back(world, r);
        if (may_be.empty()) return;
        throw Error(Code::missing_field,
                    "note: must say why they are not these: " + english().say(*words::semicolons(may_be)) +
                        ". Received without a history they would count as never exposed. Are they the same doses? Then "
                        "with their handover; found in another place, they are to be moved there from where the book "
                        "has them. NOT WRITTEN: post it again with the handover, or with a note that says why not");
    }

    static void must_not_freeze(World& world, const std::string& product_id, const std::string& place_id) {
        const Product* product = world.known.product(product_id);
        const Place* place = world.known.place(place_id);
        if (!product || !place || !freezes(place->range, *product)) return;
        const auto range = [](const Range& of) { return " (" + english().say(range_words(of)) + ")"; };
        throw Error(Code::missing_field,
                    "note: must say why: " + text::quoted(place_id) + range(place->range) + " FREEZES " +
                        text::quoted(product_id) + range(product->range) +
                        ", and freezing can ruin doses that look as they always did. NOT WRITTEN: put them elsewhere, "
                        "or post it again with the note");
    }

    const ledger::Store& store_;
    const ledger::Known known_;
    Json fields_;
    Instant now_, at_;
    Drafted out_;
};

}  // namespace

Drafted draft(const ledger::Store* store, std::string_view json, Instant now) {
    Json fields = text::parse_json(json, where);
    if (!fields.is_object()) throw Error(Code::bad_value, "draft: must be a JSON object, the fields of one entry");
    if (store) return Draft(*store, std::move(fields), now).make();
    if (is_stated(fields, "at") && is_stated(fields, "zone")) {
        try {
            fields["at"] = typed_instant(stated(fields, "at"), Zone(stated(fields, "zone")), now).text();
        } catch (const Error&) {  // is said of the entry below
        }
    }
    Drafted out;
    out.entries.push_back(entries::parse_entry(fields, nullptr, where, entries::Form::posted));
    if (const Entry& first = out.entries.back(); !first.note) must_say_why(time_doubts(first.fact));
    for (const auto& line : read_back(out.entries.back().fact)) out.read_back.push_back(line.text());
    return out;
}

}  // namespace coldtally::answers
