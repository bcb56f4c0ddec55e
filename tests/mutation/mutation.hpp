// The switches of the mutants: put before every file that is changed, and read by nothing else.
#pragma once

#include <type_traits>
#include <utility>

namespace mutation {

extern int active;                // the number of the mutant that is on
extern unsigned char reached[];   // by number: was the place of the mutant run through?

inline bool on(int n) {
    reached[n] = 1;
    return active == n;
}

template <class T>
T one_more(int n, T value) {
    return on(n) ? T(value + 1) : value;
}

// What an expression comes to: Boost's, which are added up only when their value is asked for, say it themselves.
template <class T>
struct ValueOf {
    using Type = T;
};
template <class T>
    requires requires { typename T::result_type; }
struct ValueOf<T> {
    using Type = typename T::result_type;
};

// `a < b` is written `a < Less{n} > b`, which keeps the order in which operators bind: the first makes an Of, the
// second compares.
template <class A, class Operator>
struct Of {
    A&& a;
    int n;
};

#define COLDTALLY_MUTATION(NAME, FIRST, SECOND, IS, BECOMES)                       \
    struct NAME {                                                                  \
        int n;                                                                     \
    };                                                                             \
    template <class A>                                                             \
    Of<A, NAME> operator FIRST(A&& a, NAME o) {                                    \
        return {std::forward<A>(a), o.n};                                          \
    }                                                                              \
    template <class A, class B>                                                    \
    auto operator SECOND(Of<A, NAME>&& of, B&& b) {                                \
        using Value = typename ValueOf<std::decay_t<decltype(of.a IS b)>>::Type;   \
        return on(of.n) ? Value(of.a BECOMES b) : Value(of.a IS b);                \
    }

COLDTALLY_MUTATION(Less, <, >, <, <=)
COLDTALLY_MUTATION(LessEqual, <, >, <=, <)
COLDTALLY_MUTATION(Greater, <, >, >, >=)
COLDTALLY_MUTATION(GreaterEqual, <, >, >=, >)
COLDTALLY_MUTATION(Equal, ==, ==, ==, !=)
COLDTALLY_MUTATION(Unequal, ==, ==, !=, ==)
COLDTALLY_MUTATION(Plus, +, +, +, -)
COLDTALLY_MUTATION(Minus, -, -, -, +)

struct Least {
    int n;
    template <class T>
    T operator()(const T& a, const T& b) const {
        return (b < a) != on(n) ? b : a;
    }
};
struct Greatest {
    int n;
    template <class T>
    T operator()(const T& a, const T& b) const {
        return (a < b) != on(n) ? b : a;
    }
};

}  // namespace mutation
