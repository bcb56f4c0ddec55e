// Stock: which doses are where and until when they may be used, the three lists, the doses given, and why a holding is
// on its list.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/exposure.hpp"
#include "coldtally/gs1.hpp"
#include "coldtally/question.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// What ends the use of doses: the lot's expiry, or what shortened it.
enum class UseLimitKind { expiry, beyond_use, guidance, handover };
/// "expiry", "beyond-use", "guidance", "handover"
std::string_view use_limit_name(UseLimitKind kind) noexcept;

/// The last day on which doses may be used: the earliest of the lot's expiry and of all that has shortened their use.
struct LastUse {
    Instant until;          ///< the first instant at which they may no longer be used
    Date day;               ///< of the site's calendar: the last on which they may be used, if for a part of it alone
    bool whole_day = true;  ///< to the end of that day; else until the instant
    UseLimitKind set_by = UseLimitKind::expiry;
    std::optional<EntryNumber> entry;  ///< which set it; none for the expiry
};

enum class List { discard, quarantine, keep };
/// "discard", "quarantine-pending-guidance", "keep"
std::string_view list_name(List list) noexcept;

/// Why doses must not be used, in the order in which they are listed: the first two are of discard, the others of
/// quarantine.
enum class Reason { expired, condemned, warm, cold, frozen, over_allowance, point, unmonitored, held };
/// "expired", "condemned", "warm", "cold", "frozen", "over-allowance", "point", "unmonitored", "held"
std::string_view reason_name(Reason reason) noexcept;

/// Does a remark that stands beside a list forbid use: what was learnt or held after guidance cleared the doses,
/// another handover that came of them, a release that does not hold any more?
bool forbids_use(const Remark& beside) noexcept;
/// Doses on this list, in doubt of these open incidents, with this beside them, are not to be given as things stand: of
/// all rows below. `beside`: notes that hold it do.
bool do_not_use(List list, const std::vector<std::string>& in_doubt, const std::vector<Remark>& beside);

struct StockAnswer {
    AnswerHead head;
    struct Row {
        HoldingKey holding;
        Doses doses;
        Date expiry;
        LastUse last_use;
        List list = List::keep;             ///< as in ListsAnswer, with what puts them on it
        std::vector<std::string> in_doubt;  ///< as in ListsAnswer
        std::vector<Remark> beside;         ///< as in ListsAnswer, and that no opening of a vial in use is noted
    };
    std::vector<Row> holdings;
    struct Accounts {
        std::int64_t supplier = 0, patient = 0, wasted = 0, returned = 0, transferred = 0, variance = 0, on_hand = 0;
    } accounts;  ///< doses; they add up to 0
};

struct ListsAnswer {
    AnswerHead head;
    struct Row {
        HoldingKey holding;
        Doses doses;
        Date expiry;
        LastUse last_use;
        List list = List::keep;
        std::vector<Reason> reasons;
        std::vector<Remark> notes;  ///< what a careful person wants to know beside the reasons
        History history;
        std::vector<Duration> allowance_seconds;  ///< of the product's allowances
        /// Open incidents in whose time in doubt doses of this lot stood where these have been, and that no guidance
        /// has answered since; whatever the list. Shown wherever the list is.
        std::vector<std::string> in_doubt;
        /// Those of the notes that must be known before doses are used though the list does not say it.
        std::vector<Remark> beside = {};
    };
    std::vector<Row> holdings;
};

/// What the code on a box says, and what the ledger knows of such boxes.
struct ScanAnswer {
    AnswerHead head;
    Gs1Scan scan;
    std::optional<std::string>
        product;  ///< the one with this GTIN; where none has it, the only one with a lot of this number
    std::optional<Date> expiry;          ///< of the lot, as the ledger knows it
    std::vector<Remark> remarks;         ///< where code and ledger do not agree, or one of them does not know
    std::vector<ListsAnswer::Row> holdings;  ///< the lot's, as in lists
};

/// What a review finds of doses given, in the order in which findings matter. The last two are of doses that no review
/// lists and a follow-up still speaks of.
enum class Finding { expired, not_viable, pending_guidance, condemned_later, cleared, clear, taken_back, given_later };
/// "expired", "not viable", "pending guidance", "condemned later", "cleared", "clear", "void", "given later"
std::string_view finding_name(Finding finding) noexcept;

struct ReviewAnswer {
    AnswerHead head;
    struct Row {
        EntryNumber entry = 0;
        Instant at;
        std::string patient;
        HoldingKey holding;
        Doses doses;
        bool certain = true;
        Finding finding = Finding::clear;
        std::vector<Reason> reasons;  ///< the quarantine reasons at the give
        std::optional<EntryNumber> guidance;  ///< the last that covers the give
        History history;                   ///< just before the doses left
        std::vector<Duration> allowance_seconds;
        /// What must be known though the finding does not say it: that they may have been out of range or have frozen,
        /// what was learnt after guidance, open incidents.
        std::vector<Remark> beside = {};
    };
    std::vector<Row> doses;
    /// Doses given at which nothing was found, since they must not be read as "nothing happened": those given
    /// in the time in doubt of an open incident; those that by the at-most sums may have been out of range for longer
    /// than the strictest of the side's allowances permits, or may have frozen. And those, whatever was found, that
    /// guidance cleared of what was learnt after it was posted.
    std::vector<Remark> not_listed = {};
};

/// Why a holding is on its list, in the order of time.
struct Explanation {
    AnswerHead head;
    HoldingKey holding;
    struct Line {
        int indent = 0;  ///< blanks before it: more than the line that it goes with
        Remark text;

        bool operator==(const Line&) const = default;
    };
    std::vector<Line> lines;
};

/// When doses of a lot were where: for each holding the times in which it had doses.
struct StaysAnswer {
    AnswerHead head;
    std::string product, lot;
    struct Row {
        HoldingKey holding;
        Instant from;
        std::optional<Instant> until;  ///< none: doses are still there
        Doses most;                    ///< the most there was at once
    };
    std::vector<Row> stays;  ///< by (from, holding)
};

}  // namespace coldtally
