/*
 * mixcalc for C++17: the C interface with quantities as types, plans that free themselves, and exceptions.
 *
 * Header only; link with libmixcalc as for C. mixcalc.h is the manual of what each function means; here is what C++ adds.
 *
 *   - A quantity is a type: a dose is no volume rate, though both are L/ha. Literals (2.5_L_per_ha) and text say what their unit says and no
 *     more: L/ha is a VolumePerArea until somebody claims it, VolumeRate{200.0_L_per_ha}, LiquidDose{2.5_L_per_ha}. What is said per 100 L
 *     is of a mix (VolumeFraction, MassConcentration), g/L is the Content of a product, and kg/L the Density of a liquid.
 *   - Quantities of a type are added, compared and scaled here. Products and quotients are identities of the trade, and each is one call
 *     of the C function of that name: same checks, same digits as in C, Rust and Python. What is not listed does not compile.
 *   - What cannot be answered throws mixcalc::Error with code, path, given and allowed. Nothing else is thrown but std::bad_alloc.
 *   - What plans give is copied out: it outlives them. Plans are moved, not copied; any number of threads may read one.
 *   - Numbers of lists (Action, Severity ...) may grow: have a default in every switch.
 *
 *     using namespace mixcalc::literals;
 *     mixcalc::Volume mix = mixcalc::VolumeRate{200.0_L_per_ha} * 12.4_ha;
 */
#ifndef MIXCALC_HPP
#define MIXCALC_HPP

#include "mixcalc.h"

#include <cstdint>
#include <exception>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace mixcalc {

/// Why a question could not be answered. what() is the whole sentence.
class Error : public std::runtime_error {
public:
    explicit Error(const mixcalc_error &error)
        : std::runtime_error(error.message), code_(error.code), path_(error.path), given_(error.given), allowed_(error.allowed) {}

    /// MIXCALC_STATUS_NOT_FINITE and so on.
    std::uint32_t code() const noexcept { return code_; }
    /// The field that it is about, such as products[1].label.max_dose, or the parameter; empty where there is none.
    const std::string &path() const noexcept { return path_; }
    /// What was given.
    const std::string &given() const noexcept { return given_; }
    /// What would be allowed instead.
    const std::string &allowed() const noexcept { return allowed_; }

private:
    std::uint32_t code_;
    std::string path_, given_, allowed_;
};

namespace detail {

/// Calls a function of the C interface, and throws what it says is wrong. It is called again for its sentence: an error is large, and most
/// calls need none.
template <class Function, class... Arguments> void call(Function function, Arguments... arguments)
{
    if (function(arguments..., nullptr) == MIXCALC_STATUS_OK)
        return;
    mixcalc_error error = MIXCALC_ERROR_INIT;
    if (function(arguments..., &error) != MIXCALC_STATUS_OK)
        throw Error(error);
}

template <class Function, class... Inputs> double sum(Function function, Inputs... inputs)
{
    double out = 0;
    call(function, inputs..., &out);
    return out;
}

inline double converted(double value, const char *unit, const char *to_unit) { return sum(mixcalc_convert, value, unit, to_unit); }

} // namespace detail

/// What every quantity can do: a number in the one unit of its kind.
template <class Kind> class Quantity {
public:
    /// A number in any unit of the kind, such as of(20, "US gal/ac").
    static Kind of(double value, const std::string &unit) { return Kind::made(detail::converted(value, unit.c_str(), Kind::unit)); }
    /// Text such as "20 US gal/ac". Text of another kind is refused.
    static Kind read(const std::string &text) { return Kind::made(detail::sum(mixcalc_read_quantity, text.c_str(), Kind::kind, Kind::unit)); }
    /// None of it.
    constexpr Quantity() noexcept = default;
    /// The number in another unit.
    double in(const std::string &unit) const { return detail::converted(value_, Kind::unit, unit.c_str()); }

    friend constexpr Kind operator+(Kind a, Kind b) noexcept { return made(a.value_ + b.value_); }
    friend constexpr Kind operator-(Kind a, Kind b) noexcept { return made(a.value_ - b.value_); }
    friend constexpr Kind operator*(Kind a, double factor) noexcept { return made(a.value_ * factor); }
    friend constexpr Kind operator*(double factor, Kind a) noexcept { return made(a.value_ * factor); }
    friend constexpr Kind operator/(Kind a, double divisor) noexcept { return made(a.value_ / divisor); }
    friend constexpr double operator/(Kind a, Kind b) noexcept { return a.value_ / b.value_; }
    friend constexpr bool operator==(Kind a, Kind b) noexcept { return a.value_ == b.value_; }
    friend constexpr bool operator!=(Kind a, Kind b) noexcept { return a.value_ != b.value_; }
    friend constexpr bool operator<(Kind a, Kind b) noexcept { return a.value_ < b.value_; }
    friend constexpr bool operator>(Kind a, Kind b) noexcept { return a.value_ > b.value_; }
    friend constexpr bool operator<=(Kind a, Kind b) noexcept { return a.value_ <= b.value_; }
    friend constexpr bool operator>=(Kind a, Kind b) noexcept { return a.value_ >= b.value_; }

protected:
    constexpr explicit Quantity(double value) noexcept : value_(value) {}
    double value_ = 0;

private:
    static constexpr Kind made(double value) noexcept { return Kind::made(value); }
};

/* A kind: its type, the words of its unit in code and in text, its own words; claims are added within the braces. */
#define MIXCALC_KIND(Kind, units, unit_text, words, claims)                                              \
    class Kind : public Quantity<Kind> {                                                                 \
    public:                                                                                              \
        static constexpr const char *unit = unit_text;                                                   \
        static constexpr const char *kind = words;                                                       \
        static constexpr Kind from_##units(double value) noexcept { return made(value); }                \
        constexpr double units() const noexcept { return value_; }                                       \
        constexpr Kind() noexcept = default;                                                             \
        claims                                                                                           \
    private:                                                                                             \
        friend class Quantity<Kind>;                                                                     \
        struct Made {                                                                                    \
            double value;                                                                                \
        };                                                                                               \
        constexpr explicit Kind(Made made) noexcept : Quantity(made.value) {}                            \
        static constexpr Kind made(double value) noexcept { return Kind(Made{value}); }                  \
    }
#define MIXCALC_CLAIM(Kind, Unclaimed, units) \
    constexpr explicit Kind(Unclaimed unclaimed) noexcept : Quantity(unclaimed.units()) {}

MIXCALC_KIND(Length, meters, "m", "length", );
MIXCALC_KIND(Area, hectares, "ha", "area", );
MIXCALC_KIND(Volume, liters, "L", "volume", );
MIXCALC_KIND(Mass, kilograms, "kg", "mass", );
MIXCALC_KIND(Time, seconds, "s", "time", );
MIXCALC_KIND(Speed, kilometers_per_hour, "km/h", "speed", );
MIXCALC_KIND(WorkRate, hectares_per_hour, "ha/h", "work rate", );
MIXCALC_KIND(Flow, liters_per_minute, "L/min", "flow", );
/// A volume rate or a liquid dose: nobody has yet said which.
MIXCALC_KIND(VolumePerArea, liters_per_hectare, "L/ha", "volume per area", );
MIXCALC_KIND(VolumeRate, liters_per_hectare, "L/ha", "volume rate", MIXCALC_CLAIM(VolumeRate, VolumePerArea, liters_per_hectare));
MIXCALC_KIND(LiquidDose, liters_per_hectare, "L/ha", "liquid dose", MIXCALC_CLAIM(LiquidDose, VolumePerArea, liters_per_hectare));
/// A solid dose or active substance per area: nobody has yet said which.
MIXCALC_KIND(MassPerArea, kilograms_per_hectare, "kg/ha", "mass per area", );
MIXCALC_KIND(SolidDose, kilograms_per_hectare, "kg/ha", "solid dose", MIXCALC_CLAIM(SolidDose, MassPerArea, kilograms_per_hectare));
MIXCALC_KIND(VolumeFraction, milliliters_per_100_liters, "mL/100 L", "volume fraction", );
MIXCALC_KIND(MassConcentration, grams_per_100_liters, "g/100 L", "mass concentration", );
MIXCALC_KIND(MassFraction, grams_per_kilogram, "g/kg", "mass fraction", );
MIXCALC_KIND(Content, grams_per_liter, "g/L", "content", );
MIXCALC_KIND(Density, kilograms_per_liter, "kg/L", "density", );
MIXCALC_KIND(Ratio, percent, "%", "ratio", );

#undef MIXCALC_KIND
#undef MIXCALC_CLAIM

inline namespace literals {

/* Both ways to write a number: 2_ha and 2.5_ha. */
#define MIXCALC_LITERAL(name, Kind, units)                                                                        \
    constexpr Kind operator""_##name(long double value) noexcept { return Kind::from_##units(static_cast<double>(value)); } \
    constexpr Kind operator""_##name(unsigned long long value) noexcept { return Kind::from_##units(static_cast<double>(value)); }
/* In a unit that is not the kind's own, by the factor of the library. */
#define MIXCALC_LITERAL_IN(name, Kind, unit)                                                                      \
    inline Kind operator""_##name(long double value) { return Kind::of(static_cast<double>(value), unit); }       \
    inline Kind operator""_##name(unsigned long long value) { return Kind::of(static_cast<double>(value), unit); }

MIXCALC_LITERAL(m, Length, meters)
MIXCALC_LITERAL(ha, Area, hectares)
MIXCALC_LITERAL(L, Volume, liters)
MIXCALC_LITERAL(kg, Mass, kilograms)
MIXCALC_LITERAL(s, Time, seconds)
MIXCALC_LITERAL(km_per_h, Speed, kilometers_per_hour)
MIXCALC_LITERAL(ha_per_h, WorkRate, hectares_per_hour)
MIXCALC_LITERAL(L_per_min, Flow, liters_per_minute)
MIXCALC_LITERAL(L_per_ha, VolumePerArea, liters_per_hectare)
MIXCALC_LITERAL(kg_per_ha, MassPerArea, kilograms_per_hectare)
MIXCALC_LITERAL(mL_per_100_L, VolumeFraction, milliliters_per_100_liters)
MIXCALC_LITERAL(g_per_100_L, MassConcentration, grams_per_100_liters)
MIXCALC_LITERAL(g_per_kg, MassFraction, grams_per_kilogram)
MIXCALC_LITERAL(g_per_L, Content, grams_per_liter)
MIXCALC_LITERAL(kg_per_L, Density, kilograms_per_liter)
MIXCALC_LITERAL(percent, Ratio, percent)
MIXCALC_LITERAL_IN(ft, Length, "ft")
MIXCALC_LITERAL_IN(ac, Area, "ac")
MIXCALC_LITERAL_IN(m2, Area, "m2")
MIXCALC_LITERAL_IN(mL, Volume, "mL")
MIXCALC_LITERAL_IN(us_gal, Volume, "US gal")
MIXCALC_LITERAL_IN(us_fl_oz, Volume, "US fl oz")
MIXCALC_LITERAL_IN(imp_gal, Volume, "imp gal")
MIXCALC_LITERAL_IN(g, Mass, "g")
MIXCALC_LITERAL_IN(lb, Mass, "lb")
MIXCALC_LITERAL_IN(mph, Speed, "mph")
MIXCALC_LITERAL_IN(mL_per_ha, VolumePerArea, "mL/ha")
MIXCALC_LITERAL_IN(us_gal_per_ac, VolumePerArea, "US gal/ac")
MIXCALC_LITERAL_IN(us_fl_oz_per_ac, VolumePerArea, "US fl oz/ac")
MIXCALC_LITERAL_IN(g_per_ha, MassPerArea, "g/ha")
MIXCALC_LITERAL_IN(lb_per_ac, MassPerArea, "lb/ac")

#undef MIXCALC_LITERAL
#undef MIXCALC_LITERAL_IN

} // namespace literals

/* A sum of two inputs, by its name and as an operator: result, name, operator, inputs with their units, function of C. */
#define MIXCALC_SUM(Result, result_units, name, A, a_units, sign, B, b_units, function)                                       \
    inline Result name(A a, B b) { return Result::from_##result_units(detail::sum(function, a.a_units(), b.b_units())); } \
    inline Result operator sign(A a, B b) { return name(a, b); }
/* A product, whose inputs may stand in either order. */
#define MIXCALC_PRODUCT(Result, result_units, name, A, a_units, B, b_units, function)           \
    MIXCALC_SUM(Result, result_units, name, A, a_units, *, B, b_units, function) \
    inline Result operator*(B b, A a) { return name(a, b); }
#define MIXCALC_QUOTIENT(Result, result_units, name, A, a_units, B, b_units, function) \
    MIXCALC_SUM(Result, result_units, name, A, a_units, /, B, b_units, function)

MIXCALC_PRODUCT(Volume, liters, mix, VolumeRate, liters_per_hectare, Area, hectares, mixcalc_mix_l)
MIXCALC_QUOTIENT(Area, hectares, area_for_mix, Volume, liters, VolumeRate, liters_per_hectare, mixcalc_area_for_mix_ha)
MIXCALC_PRODUCT(Volume, liters, liquid_amount, LiquidDose, liters_per_hectare, Area, hectares, mixcalc_liquid_amount_l)
MIXCALC_PRODUCT(Mass, kilograms, solid_amount, SolidDose, kilograms_per_hectare, Area, hectares, mixcalc_solid_amount_kg)
MIXCALC_PRODUCT(Volume, liters, liquid_amount_in_mix, VolumeFraction, milliliters_per_100_liters, Volume, liters, mixcalc_liquid_amount_in_mix_l)
MIXCALC_PRODUCT(Mass, kilograms, solid_amount_in_mix, MassConcentration, grams_per_100_liters, Volume, liters, mixcalc_solid_amount_in_mix_kg)
MIXCALC_PRODUCT(LiquidDose, liters_per_hectare, liquid_dose, VolumeFraction, milliliters_per_100_liters, VolumeRate, liters_per_hectare, mixcalc_liquid_dose_l_per_ha)
MIXCALC_PRODUCT(SolidDose, kilograms_per_hectare, solid_dose, MassConcentration, grams_per_100_liters, VolumeRate, liters_per_hectare, mixcalc_solid_dose_kg_per_ha)
MIXCALC_QUOTIENT(VolumeFraction, milliliters_per_100_liters, volume_fraction, LiquidDose, liters_per_hectare, VolumeRate, liters_per_hectare, mixcalc_volume_fraction_ml_per_100_l)
MIXCALC_QUOTIENT(MassConcentration, grams_per_100_liters, mass_concentration, SolidDose, kilograms_per_hectare, VolumeRate, liters_per_hectare, mixcalc_mass_concentration_g_per_100_l)
MIXCALC_PRODUCT(MassPerArea, kilograms_per_hectare, substance_in_liquid_dose, Content, grams_per_liter, LiquidDose, liters_per_hectare, mixcalc_substance_in_liquid_dose_kg_per_ha)
MIXCALC_PRODUCT(MassPerArea, kilograms_per_hectare, substance_in_solid_dose, MassFraction, grams_per_kilogram, SolidDose, kilograms_per_hectare, mixcalc_substance_in_solid_dose_kg_per_ha)
MIXCALC_QUOTIENT(LiquidDose, liters_per_hectare, liquid_dose_of_substance, MassPerArea, kilograms_per_hectare, Content, grams_per_liter, mixcalc_liquid_dose_of_substance_l_per_ha)
MIXCALC_QUOTIENT(SolidDose, kilograms_per_hectare, solid_dose_of_substance, MassPerArea, kilograms_per_hectare, MassFraction, grams_per_kilogram, mixcalc_solid_dose_of_substance_kg_per_ha)
MIXCALC_PRODUCT(Mass, kilograms, liquid_mass, Density, kilograms_per_liter, Volume, liters, mixcalc_liquid_mass_kg)
MIXCALC_QUOTIENT(Volume, liters, liquid_volume, Mass, kilograms, Density, kilograms_per_liter, mixcalc_liquid_volume_l)
MIXCALC_PRODUCT(WorkRate, hectares_per_hour, work_rate, Speed, kilometers_per_hour, Length, meters, mixcalc_work_rate_ha_per_h)
MIXCALC_QUOTIENT(Time, seconds, spraying_time, Area, hectares, WorkRate, hectares_per_hour, mixcalc_spraying_time_s)
MIXCALC_QUOTIENT(Flow, liters_per_minute, flow, Volume, liters, Time, seconds, mixcalc_flow_l_per_min)
MIXCALC_QUOTIENT(Speed, kilometers_per_hour, speed, Length, meters, Time, seconds, mixcalc_speed_km_per_h)

#undef MIXCALC_SUM
#undef MIXCALC_PRODUCT
#undef MIXCALC_QUOTIENT

inline VolumeRate volume_rate(Flow flow, Speed speed, Length swath)
{
    return VolumeRate::from_liters_per_hectare(
        detail::sum(mixcalc_volume_rate_l_per_ha, flow.liters_per_minute(), speed.kilometers_per_hour(), swath.meters()));
}

inline Flow required_flow(VolumeRate volume_rate, Speed speed, Length swath)
{
    return Flow::from_liters_per_minute(
        detail::sum(mixcalc_required_flow_l_per_min, volume_rate.liters_per_hectare(), speed.kilometers_per_hour(), swath.meters()));
}

inline Speed required_speed(Flow flow, VolumeRate volume_rate, Length swath)
{
    return Speed::from_kilometers_per_hour(
        detail::sum(mixcalc_required_speed_km_per_h, flow.liters_per_minute(), volume_rate.liters_per_hectare(), swath.meters()));
}

inline Length required_swath(Flow flow, VolumeRate volume_rate, Speed speed)
{
    return Length::from_meters(
        detail::sum(mixcalc_required_swath_m, flow.liters_per_minute(), volume_rate.liters_per_hectare(), speed.kilometers_per_hour()));
}

/// What is known of a tank; at least one of nominal and brim must be. There is no default for the headspace.
struct Tank {
    std::optional<Volume> nominal, brim;
    Ratio headspace;
    std::optional<Volume> graduation;
};

inline Volume safe_fill(const Tank &tank)
{
    const auto known = [](const std::optional<Volume> &volume) { return volume ? volume->liters() : 0.0; };
    return Volume::from_liters(
        detail::sum(mixcalc_safe_fill_l, known(tank.nominal), known(tank.brim), tank.headspace.percent(), known(tank.graduation)));
}

struct FullAndPartLoad {
    std::uint64_t full_loads;
    /// None of it where the full loads are all.
    Volume part_load;
};

inline FullAndPartLoad full_and_part_load(Volume mix, Volume safe_fill)
{
    std::uint64_t full = 0;
    double part_l = 0;
    detail::call(mixcalc_full_and_part_load, mix.liters(), safe_fill.liters(), &full, &part_l);
    return {full, Volume::from_liters(part_l)};
}

inline std::uint64_t graduations(Volume amount, Volume graduation, Volume maximum)
{
    std::uint64_t counted = 0;
    detail::call(mixcalc_graduations_of_volume, amount.liters(), graduation.liters(), maximum.liters(), &counted);
    return counted;
}

inline std::uint64_t graduations(Mass amount, Mass graduation, Mass maximum)
{
    std::uint64_t counted = 0;
    detail::call(mixcalc_graduations_of_mass, amount.kilograms(), graduation.kilograms(), maximum.kilograms(), &counted);
    return counted;
}

/* --- Calibration --- */

enum class Side : std::uint32_t { under = MIXCALC_SIDE_UNDER, over = MIXCALC_SIDE_OVER, cannot_tell = MIXCALC_SIDE_CANNOT_TELL };
enum class System : std::uint32_t { metric = MIXCALC_SYSTEM_METRIC, us = MIXCALC_SYSTEM_US, imperial = MIXCALC_SYSTEM_IMPERIAL };
enum class Alleys : std::uint32_t { each = MIXCALC_ALLEYS_EACH, each_twice = MIXCALC_ALLEYS_EACH_TWICE, every_other = MIXCALC_ALLEYS_EVERY_OTHER };
enum class SizeDefinition : std::uint32_t { nominal = MIXCALC_SIZE_NOMINAL, by_custom = MIXCALC_SIZE_BY_CUSTOM };
enum class BoomSide : std::uint32_t { unsaid = 0, left = MIXCALC_BOOM_LEFT, right = MIXCALC_BOOM_RIGHT };

namespace detail {

/// Frees what the C interface handed out.
template <class Handle, void (*free)(Handle *)> struct Freed {
    void operator()(Handle *handle) const noexcept { free(handle); }
};
template <class Handle, void (*free)(Handle *)> using Owned = std::unique_ptr<Handle, Freed<Handle, free>>;

/// What a function of the C interface makes; its last output is the handle.
template <class Handle, class Function, class... Inputs> Handle *made(Function function, Inputs... inputs)
{
    Handle *out = nullptr;
    call(function, inputs..., &out);
    return out;
}

template <class Struct, class Function, class... Inputs> Struct told(Struct start, Function function, Inputs... inputs)
{
    call(function, inputs..., &start);
    return start;
}

} // namespace detail

/// From where to where a value lies, in the unit that was asked for.
struct Interval {
    double low, high;
};

/// What one input adds to a standard uncertainty.
struct Contribution {
    std::string name;
    double standard_uncertainty;
    Ratio share_of_variance;
};

/// A value with its uncertainty and with what each input contributes to it. Its kind is known when the program runs.
class Uncertain {
public:
    static Uncertain exact(double value, const std::string &unit) { return of(mixcalc_uncertain_exact, value, unit.c_str()); }
    static Uncertain from_standard_uncertainty(const std::string &name, double value, double u, double degrees_of_freedom, const std::string &unit)
    {
        return of(mixcalc_uncertain_from_standard_uncertainty, name.c_str(), value, u, degrees_of_freedom, unit.c_str());
    }
    static Uncertain from_repeats(const std::string &name, const std::vector<double> &repeats, const std::string &unit)
    {
        return of(mixcalc_uncertain_from_repeats, name.c_str(), repeats.data(), repeats.size(), unit.c_str());
    }
    static Uncertain from_tolerance(const std::string &name, double value, double half_width, const std::string &unit)
    {
        return of(mixcalc_uncertain_from_tolerance, name.c_str(), value, half_width, unit.c_str());
    }
    static Uncertain from_resolution(const std::string &name, double value, double resolution, const std::string &unit)
    {
        return of(mixcalc_uncertain_from_resolution, name.c_str(), value, resolution, unit.c_str());
    }
    static Uncertain from_expanded_uncertainty(const std::string &name, double value, double expanded, double coverage_factor,
                                               double degrees_of_freedom, const std::string &unit)
    {
        return of(mixcalc_uncertain_from_expanded_uncertainty, name.c_str(), value, expanded, coverage_factor, degrees_of_freedom, unit.c_str());
    }
    /// A quantity of a type, taken as it stands.
    template <class Kind> static Uncertain exact(Kind value) { return exact(value.in(Kind::unit), Kind::unit).claim(Kind::kind); }
    template <class Kind> static Uncertain from_tolerance(const std::string &name, Kind value, Kind half_width)
    {
        return from_tolerance(name, value.in(Kind::unit), half_width.in(Kind::unit), Kind::unit).claim(Kind::kind);
    }

    Uncertain(const Uncertain &other) : Uncertain(copy(other.get())) {}
    Uncertain(Uncertain &&) noexcept = default;
    Uncertain &operator=(Uncertain other) noexcept
    {
        handle_ = std::move(other.handle_);
        return *this;
    }

    static Uncertain sum(const std::vector<Uncertain> &values) { return of_all(mixcalc_uncertain_sum, values); }
    static Uncertain mean(const std::vector<Uncertain> &values) { return of_all(mixcalc_uncertain_mean, values); }
    static Uncertain harmonic_mean(const std::vector<Uncertain> &values) { return of_all(mixcalc_uncertain_harmonic_mean, values); }
    friend Uncertain operator+(const Uncertain &a, const Uncertain &b) { return of(mixcalc_uncertain_plus, a.get(), b.get()); }
    friend Uncertain operator-(const Uncertain &a, const Uncertain &b) { return of(mixcalc_uncertain_minus, a.get(), b.get()); }
    friend Uncertain operator*(const Uncertain &a, const Uncertain &b) { return of(mixcalc_uncertain_times, a.get(), b.get()); }
    friend Uncertain operator/(const Uncertain &a, const Uncertain &b) { return of(mixcalc_uncertain_over, a.get(), b.get()); }
    Uncertain power(const Uncertain &exponent) const { return of(mixcalc_uncertain_power, get(), exponent.get()); }
    Uncertain logarithm() const { return of(mixcalc_uncertain_logarithm, get()); }
    Uncertain claim(const std::string &kind) const { return of(mixcalc_uncertain_claim, get(), kind.c_str()); }

    double value(const std::string &unit) const { return detail::sum(mixcalc_uncertain_value, get(), unit.c_str()); }
    double standard_uncertainty(const std::string &unit) const { return detail::sum(mixcalc_uncertain_standard_uncertainty, get(), unit.c_str()); }
    /// The value as a type; the kind must be that.
    template <class Kind> Kind value() const { return Kind::of(claim(Kind::kind).value(Kind::unit), Kind::unit); }
    double degrees_of_freedom() const { return detail::sum(mixcalc_uncertain_degrees_of_freedom, get()); }
    double coverage_factor(Ratio coverage) const { return detail::sum(mixcalc_uncertain_coverage_factor, get(), coverage.percent()); }
    double expanded_uncertainty(Ratio coverage, const std::string &unit) const
    {
        return detail::sum(mixcalc_uncertain_expanded_uncertainty, get(), coverage.percent(), unit.c_str());
    }
    Interval interval(Ratio coverage, const std::string &unit) const
    {
        Interval found{};
        detail::call(mixcalc_uncertain_interval, get(), coverage.percent(), unit.c_str(), &found.low, &found.high);
        return found;
    }
    /// The largest first.
    std::vector<Contribution> contributions(const std::string &unit) const
    {
        std::size_t count = 0;
        detail::call(mixcalc_uncertain_contributions, get(), &count);
        std::vector<Contribution> all;
        for (std::size_t i = 0; i < count; ++i) {
            const auto one = detail::told(mixcalc_contribution MIXCALC_CONTRIBUTION_INIT, mixcalc_uncertain_contribution, get(), i, unit.c_str());
            all.push_back({one.name, one.standard_uncertainty, Ratio::from_percent(one.share_of_variance_percent)});
        }
        return all;
    }
    Ratio probability_over(double limit, const std::string &unit) const
    {
        return Ratio::from_percent(detail::sum(mixcalc_uncertain_probability_over_percent, get(), limit, unit.c_str()));
    }
    Side side_of(double limit, const std::string &unit, Ratio coverage) const
    {
        std::uint32_t side = 0;
        detail::call(mixcalc_uncertain_side_of, get(), limit, unit.c_str(), coverage.percent(), &side);
        return static_cast<Side>(side);
    }
    double aim_under(double limit, const std::string &unit, Ratio risk) const
    {
        return detail::sum(mixcalc_uncertain_aim_under, get(), limit, unit.c_str(), risk.percent());
    }

    /// Takes what a function of C hands out.
    explicit Uncertain(mixcalc_uncertain *handle) noexcept : handle_(handle) {}
    /// A copy of what C lends.
    static Uncertain copy(const mixcalc_uncertain *lent) { return of(mixcalc_uncertain_clone, lent); }
    template <class Function, class... Inputs> static Uncertain of(Function function, Inputs... inputs)
    {
        return Uncertain(detail::made<mixcalc_uncertain>(function, inputs...));
    }
    const mixcalc_uncertain *get() const noexcept { return handle_.get(); }

private:
    template <class Function> static Uncertain of_all(Function function, const std::vector<Uncertain> &values)
    {
        std::vector<const mixcalc_uncertain *> handles;
        for (const auto &value : values)
            handles.push_back(value.get());
        return of(function, handles.data(), handles.size());
    }
    detail::Owned<mixcalc_uncertain, mixcalc_uncertain_free> handle_;
};

/// What a calibration was measured with and where, or what it is to be used with. The pressure is in kPa, the day as "2026-05-01".
struct Setting {
    std::string sprayer, operator_name, nozzles, ground, date;
    double pressure_kpa;
};

/// A measured volume rate: the value with its uncertainty, how it was reached, and what it holds for.
class Calibration {
public:
    static Calibration from_flow(const Uncertain &flow, const Uncertain &speed, const Uncertain &swath)
    {
        return of(mixcalc_calibration_from_flow, flow.get(), speed.get(), swath.get());
    }
    static Calibration from_timed_course(const Uncertain &catch_, const Uncertain &catch_time, const Uncertain &course, const Uncertain &course_time,
                                         const Uncertain &swath)
    {
        return of(mixcalc_calibration_from_timed_course, catch_.get(), catch_time.get(), course.get(), course_time.get(), swath.get());
    }
    static Calibration from_catch_over_course(const Uncertain &catch_, const Uncertain &course, const Uncertain &swath)
    {
        return of(mixcalc_calibration_from_catch_over_course, catch_.get(), course.get(), swath.get());
    }
    static Calibration from_catch_over_area(const Uncertain &catch_, const Uncertain &area)
    {
        return of(mixcalc_calibration_from_catch_over_area, catch_.get(), area.get());
    }
    static Calibration from_refill(const Uncertain &refill, const Uncertain &area) { return of(mixcalc_calibration_from_refill, refill.get(), area.get()); }
    static Calibration from_emptied_tank(const Uncertain &filled, const Uncertain &residual, const Uncertain &area)
    {
        return of(mixcalc_calibration_from_emptied_tank, filled.get(), residual.get(), area.get());
    }
    static Calibration from_spot(const Uncertain &catch_, const Uncertain &catch_time, const Uncertain &spot, const Uncertain &spot_time)
    {
        return of(mixcalc_calibration_from_spot, catch_.get(), catch_time.get(), spot.get(), spot_time.get());
    }
    static Calibration from_plants(const Uncertain &volume, const Uncertain &ground) { return of(mixcalc_calibration_from_plants, volume.get(), ground.get()); }
    /// Two rates: per area of treated band, and per area of field.
    static std::pair<Calibration, Calibration> from_band(const Uncertain &flow, const Uncertain &speed, const Uncertain &band, const Uncertain &row_spacing)
    {
        mixcalc_calibration *of_band = nullptr, *of_field = nullptr;
        detail::call(mixcalc_calibration_from_band, flow.get(), speed.get(), band.get(), row_spacing.get(), &of_band, &of_field);
        return {Calibration(of_band), Calibration(of_field)};
    }
    static Calibration from_alleys(const Uncertain &flow, const Uncertain &speed, const Uncertain &row_spacing, Alleys alleys)
    {
        return of(mixcalc_calibration_from_alleys, flow.get(), speed.get(), row_spacing.get(), static_cast<std::uint32_t>(alleys));
    }
    static Calibration from_sides(const Uncertain &left, const Uncertain &right, const Uncertain &speed, const Uncertain &row_spacing)
    {
        return of(mixcalc_calibration_from_sides, left.get(), right.get(), speed.get(), row_spacing.get());
    }

    Calibration with_setting(const Setting &setting) const
    {
        const auto view = lent(setting);
        return of(mixcalc_calibration_with_setting, get(), &view);
    }
    /// MIXCALC_DIFFERENCE_SPRAYER and so on, added up; 0 where nothing differs.
    std::uint32_t differences(const Setting &use_in, double oldest_days) const
    {
        const auto view = lent(use_in);
        std::uint32_t bits = 0;
        detail::call(mixcalc_calibration_differences, get(), &view, oldest_days, &bits);
        return bits;
    }
    Uncertain volume_rate() const
    {
        const mixcalc_uncertain *rate = nullptr;
        detail::call(mixcalc_calibration_volume_rate, get(), &rate);
        return Uncertain::copy(rate);
    }
    std::string formula() const
    {
        const char *text = nullptr;
        detail::call(mixcalc_calibration_formula, get(), &text);
        return text;
    }
    std::string working(System system = System::metric) const
    {
        char *text = nullptr;
        std::size_t len = 0;
        detail::call(mixcalc_calibration_working, get(), static_cast<std::uint32_t>(system), &text, &len);
        const std::unique_ptr<char, void (*)(char *)> owned(text, mixcalc_string_free);
        return std::string(text, len);
    }
    Uncertain after_flow(const Uncertain &from, const Uncertain &to) const { return Uncertain::of(mixcalc_calibration_after_flow, get(), from.get(), to.get()); }
    Uncertain after_speed(const Uncertain &from, const Uncertain &to) const { return Uncertain::of(mixcalc_calibration_after_speed, get(), from.get(), to.get()); }
    Uncertain after_swath(const Uncertain &from, const Uncertain &to) const { return Uncertain::of(mixcalc_calibration_after_swath, get(), from.get(), to.get()); }
    const mixcalc_calibration *get() const noexcept { return handle_.get(); }

private:
    explicit Calibration(mixcalc_calibration *handle) noexcept : handle_(handle) {}
    template <class Function, class... Inputs> static Calibration of(Function function, Inputs... inputs)
    {
        return Calibration(detail::made<mixcalc_calibration>(function, inputs...));
    }
    static mixcalc_setting lent(const Setting &s)
    {
        return {sizeof(mixcalc_setting), s.sprayer.c_str(), s.operator_name.c_str(), s.nozzles.c_str(), s.ground.c_str(), s.date.c_str(), s.pressure_kpa};
    }
    detail::Owned<mixcalc_calibration, mixcalc_calibration_free> handle_;
};

inline Uncertain side_difference(const Uncertain &left, const Uncertain &right) { return Uncertain::of(mixcalc_side_difference, left.get(), right.get()); }
inline Uncertain density_factor(const Uncertain &liquid, const Uncertain &water) { return Uncertain::of(mixcalc_density_factor, liquid.get(), water.get()); }
inline Uncertain volume_of_catch(const Uncertain &mass, const Uncertain &density) { return Uncertain::of(mixcalc_volume_of_catch, mass.get(), density.get()); }
inline Uncertain delivered_liquid_dose(const Uncertain &amount, const Uncertain &mix, const Uncertain &volume_rate)
{
    return Uncertain::of(mixcalc_delivered_liquid_dose, amount.get(), mix.get(), volume_rate.get());
}
inline Uncertain delivered_solid_dose(const Uncertain &amount, const Uncertain &mix, const Uncertain &volume_rate)
{
    return Uncertain::of(mixcalc_delivered_solid_dose, amount.get(), mix.get(), volume_rate.get());
}
inline Area one_128th_acre() { return Area::from_hectares(detail::sum(mixcalc_one_128th_acre_ha)); }
inline Length course_length(Area area, Length swath) { return Length::from_meters(detail::sum(mixcalc_course_length_m, area.hectares(), swath.meters())); }
inline Density water_density(double temperature_c) { return Density::from_kilograms_per_liter(detail::sum(mixcalc_water_density_kg_per_l, temperature_c)); }
inline Length fan_width(std::uint32_t fan_angle_degrees, Length height) { return Length::from_meters(detail::sum(mixcalc_fan_width_m, fan_angle_degrees, height.meters())); }
inline Length boom_height(std::uint32_t fan_angle_degrees, Length spacing, Ratio overlap)
{
    return Length::from_meters(detail::sum(mixcalc_boom_height_m, fan_angle_degrees, spacing.meters(), overlap.percent()));
}

/// A flow of water at a pressure, as a standard or a custom states it; is_certain where the text of its source was seen to agree.
struct RatedFlow {
    Flow flow;
    double pressure_kpa;
    std::string source;
    bool is_certain;
};

inline RatedFlow rated_flow(const std::string &size, SizeDefinition definition)
{
    const auto r = detail::told(mixcalc_rated MIXCALC_RATED_INIT, mixcalc_rated_flow, size.c_str(), static_cast<std::uint32_t>(definition));
    return {Flow::from_liters_per_minute(r.flow_l_per_min), r.pressure_kpa, r.source, r.confidence == MIXCALC_CONFIDENCE_CERTAIN};
}

/// The standard sizes that give a flow at a pressure between two, each with the pressure that it takes, kPa.
inline std::vector<std::pair<std::string, double>> required_sizes(Flow flow, double lowest_kpa, double highest_kpa)
{
    const char *names[MIXCALC_NOZZLE_SIZES] = {};
    double pressures[MIXCALC_NOZZLE_SIZES] = {};
    std::size_t count = 0;
    detail::call(mixcalc_required_sizes, flow.liters_per_minute(), lowest_kpa, highest_kpa, &names[0], &pressures[0], std::size_t{MIXCALC_NOZZLE_SIZES}, &count);
    std::vector<std::pair<std::string, double>> sizes;
    for (std::size_t i = 0; i < count && i < MIXCALC_NOZZLE_SIZES; ++i)
        sizes.emplace_back(names[i], pressures[i]);
    return sizes;
}

/// A nozzle: its flow of water at a reference pressure, and how the flow goes with pressure.
class Nozzle {
public:
    Nozzle(const Uncertain &flow, const Uncertain &pressure) : Nozzle(of(mixcalc_nozzle_new, flow.get(), pressure.get())) {}
    static Nozzle rated(const std::string &size, SizeDefinition definition) { return of(mixcalc_nozzle_rated, size.c_str(), static_cast<std::uint32_t>(definition)); }
    static Nozzle from_two_points(const Uncertain &first_pressure, const Uncertain &first_flow, const Uncertain &second_pressure, const Uncertain &second_flow)
    {
        return of(mixcalc_nozzle_from_two_points, first_pressure.get(), first_flow.get(), second_pressure.get(), second_flow.get());
    }
    /// Points of pressure, kPa, and flow, L/min.
    static Nozzle from_points(const std::string &name, const std::vector<std::pair<double, double>> &points)
    {
        std::vector<double> pressures, flows;
        for (const auto &[pressure, flow] : points) {
            pressures.push_back(pressure);
            flows.push_back(flow);
        }
        return of(mixcalc_nozzle_from_points, name.c_str(), pressures.data(), flows.data(), points.size());
    }
    Nozzle with_exponent(const Uncertain &exponent) const { return of(mixcalc_nozzle_with_exponent, handle_.get(), exponent.get()); }
    Nozzle with_pressure_loss(const Uncertain &loss) const { return of(mixcalc_nozzle_with_pressure_loss, handle_.get(), loss.get()); }
    Nozzle with_density_factor(const Uncertain &factor) const { return of(mixcalc_nozzle_with_density_factor, handle_.get(), factor.get()); }
    Nozzle with_duty_cycle(const Uncertain &duty_cycle) const { return of(mixcalc_nozzle_with_duty_cycle, handle_.get(), duty_cycle.get()); }
    Nozzle with_pressure_range(double lowest_kpa, double highest_kpa, const std::string &source) const
    {
        return of(mixcalc_nozzle_with_pressure_range, handle_.get(), lowest_kpa, highest_kpa, source.c_str());
    }
    Uncertain exponent() const { return Uncertain::of(mixcalc_nozzle_exponent, handle_.get()); }
    Uncertain flow_at(const Uncertain &pressure) const { return Uncertain::of(mixcalc_nozzle_flow_at, handle_.get(), pressure.get()); }
    Uncertain required_pressure(const Uncertain &flow) const { return Uncertain::of(mixcalc_nozzle_required_pressure, handle_.get(), flow.get()); }
    /// The end of its pressure range, kPa, that a pressure is beyond.
    std::optional<double> broken_limit(double pressure_kpa) const
    {
        std::uint32_t bound = 0;
        double limit = 0;
        detail::call(mixcalc_nozzle_broken_limit, handle_.get(), pressure_kpa, &bound, &limit);
        return bound ? std::optional(limit) : std::nullopt;
    }

private:
    explicit Nozzle(mixcalc_nozzle *handle) noexcept : handle_(handle) {}
    template <class Function, class... Inputs> static Nozzle of(Function function, Inputs... inputs)
    {
        return Nozzle(detail::made<mixcalc_nozzle>(function, inputs...));
    }
    detail::Owned<mixcalc_nozzle, mixcalc_nozzle_free> handle_;
};

/// What was caught from one nozzle, L/min.
struct Catches {
    std::string name;
    std::vector<double> repeats_l_per_min;
    BoomSide side = BoomSide::unsaid;
};

/// What a check says of one nozzle: advice is MIXCALC_NOZZLE_KEEP and so on, outlier MIXCALC_OUTLIER_NONE and so on, 0 for none.
struct CheckedNozzle {
    std::string name;
    Uncertain flow, of_mean, of_new;
    std::uint32_t advice;
    std::optional<Side> rejected;
    std::uint32_t outlier;
};

/// What a check says of a set: advice is MIXCALC_SET_KEEP and so on.
struct CheckedSet {
    std::uint32_t advice;
    Uncertain mean, of_new;
    std::optional<Uncertain> shared;
    std::optional<std::pair<Uncertain, Side>> sides;
    Ratio repeatability;
    std::uint32_t outlier;
    std::vector<CheckedNozzle> nozzles;
};

/// Judges catches by a check whose pointers are set as in C; start it as MIXCALC_NOZZLE_CHECK_INIT.
inline CheckedSet check_nozzles(const mixcalc_nozzle_check &check, const std::vector<Catches> &catches)
{
    std::vector<mixcalc_catches> views;
    for (const auto &one : catches)
        views.push_back({one.name.c_str(), one.repeats_l_per_min.data(), one.repeats_l_per_min.size(), static_cast<std::uint32_t>(one.side), 0});
    const detail::Owned<mixcalc_checked, mixcalc_checked_free> set(detail::made<mixcalc_checked>(mixcalc_check_nozzles, &check, views.data(), views.size()));
    const mixcalc_checked *all = set.get();
    const auto s = detail::told(mixcalc_checked_set MIXCALC_CHECKED_SET_INIT, mixcalc_checked_summary, all);
    CheckedSet found{s.advice, Uncertain::copy(s.mean), Uncertain::copy(s.of_new), {}, {}, Ratio::from_percent(s.repeatability_percent), s.outlier_verdict, {}};
    if (s.shared)
        found.shared = Uncertain::copy(s.shared);
    if (s.sides)
        found.sides = {Uncertain::copy(s.sides), static_cast<Side>(s.sides_side)};
    for (std::size_t i = 0; i < s.nozzles; ++i) {
        const auto n = detail::told(mixcalc_checked_nozzle MIXCALC_CHECKED_NOZZLE_INIT, mixcalc_checked_nozzle_at, all, i);
        found.nozzles.push_back({n.name, Uncertain::copy(n.flow), Uncertain::copy(n.of_mean), Uncertain::copy(n.of_new), n.advice,
                                 n.rejected ? std::optional(static_cast<Side>(n.rejected)) : std::nullopt, n.outlier_verdict});
    }
    return found;
}

inline std::uint64_t repeats_needed(Ratio spread, Ratio precision, Ratio coverage)
{
    std::uint64_t repeats = 0;
    detail::call(mixcalc_repeats_needed, spread.percent(), precision.percent(), coverage.percent(), &repeats);
    return repeats;
}

inline bool is_settled(const Uncertain &mean, Ratio precision, Ratio coverage)
{
    std::uint32_t settled = 0;
    detail::call(mixcalc_is_settled, mean.get(), precision.percent(), coverage.percent(), &settled);
    return settled != 0;
}

/// A test of the value that is farthest from the mean, as C tells it. The values are all in one unit.
inline mixcalc_outlier_test outlier(const std::vector<double> &values, Ratio risk)
{
    return detail::told(mixcalc_outlier_test MIXCALC_OUTLIER_TEST_INIT, mixcalc_outlier, values.data(), values.size(), risk.percent());
}

/// How often to measure each of several things; each with the spread of a repeat and the time that it takes.
inline std::vector<std::uint64_t> best_repeats(const std::vector<std::pair<Ratio, Time>> &efforts, Time available)
{
    std::vector<double> spreads, times;
    for (const auto &[spread, time] : efforts) {
        spreads.push_back(spread.percent());
        times.push_back(time.in("min"));
    }
    std::vector<std::uint64_t> repeats(efforts.empty() ? 1 : efforts.size());
    detail::call(mixcalc_best_repeats, spreads.data(), times.data(), efforts.size(), available.in("min"), repeats.data());
    return repeats;
}

/// The straight line through the flows of a nozzle over its hours of use.
class Wear {
public:
    /// Points of hours of use and flow.
    explicit Wear(const std::vector<std::pair<double, Flow>> &points)
    {
        std::vector<double> hours, flows;
        for (const auto &[hour, flow] : points) {
            hours.push_back(hour);
            flows.push_back(flow.liters_per_minute());
        }
        handle_.reset(detail::made<mixcalc_wear>(mixcalc_wear_from_flows, hours.data(), flows.data(), points.size()));
    }
    /// Flow, and how much more that is than when new.
    std::pair<Flow, Ratio> at(double hours) const
    {
        double flow = 0, more = 0;
        detail::call(mixcalc_wear_at, handle_.get(), hours, &flow, &more);
        return {Flow::from_liters_per_minute(flow), Ratio::from_percent(more)};
    }
    /// None where it cannot be foreseen.
    std::optional<mixcalc_worn_at> reaches(Flow limit, Ratio coverage) const
    {
        const auto worn = detail::told(mixcalc_worn_at MIXCALC_WORN_AT_INIT, mixcalc_wear_reaches, handle_.get(), limit.liters_per_minute(), coverage.percent());
        return worn.is_foreseen ? std::optional(worn) : std::nullopt;
    }

private:
    detail::Owned<mixcalc_wear, mixcalc_wear_free> handle_;
};

/// The limits between which single values of a steady thing stay, in the unit of the values, and which values are outside.
struct ControlChart {
    double center, low, high;
    std::vector<bool> is_outside;
};

inline ControlChart control_chart(const std::vector<double> &values)
{
    std::vector<std::uint8_t> outside(values.size());
    const auto c = detail::told(mixcalc_chart MIXCALC_CHART_INIT, mixcalc_control_chart, values.data(), values.size(), outside.data());
    return {c.center, c.low, c.high, std::vector<bool>(outside.begin(), outside.end())};
}

/// One trial of a simulation.
class Trial {
public:
    explicit Trial(mixcalc_trial *trial) noexcept : trial_(trial) {}
    double of(const Uncertain &value, const std::string &unit) const { return detail::sum(mixcalc_trial_of, trial_, value.get(), unit.c_str()); }

private:
    mixcalc_trial *trial_;
};

/// What came out of a simulation.
class Simulation {
public:
    /// The model takes a Trial and gives a number in the unit. What it throws ends the simulation, and is thrown on.
    template <class Model> Simulation(std::uint32_t trials, std::uint64_t seed, const std::string &unit, Model model)
    {
        struct Context {
            Model &model;
            std::exception_ptr thrown;
        } context{model, nullptr};
        const auto run = [](mixcalc_trial *trial, void *given, double *out) -> std::uint32_t {
            auto &within = *static_cast<Context *>(given);
            try {
                *out = within.model(Trial(trial));
                return MIXCALC_STATUS_OK;
            } catch (...) {
                within.thrown = std::current_exception();
                return MIXCALC_STATUS_MODEL;
            }
        };
        mixcalc_simulation *made = nullptr;
        mixcalc_error error = MIXCALC_ERROR_INIT;
        if (mixcalc_simulate(trials, seed, run, &context, unit.c_str(), &made, &error) != MIXCALC_STATUS_OK) {
            if (context.thrown)
                std::rethrow_exception(context.thrown);
            throw Error(error);
        }
        handle_.reset(made);
    }
    double median(const std::string &unit) const { return detail::sum(mixcalc_simulation_median, handle_.get(), unit.c_str()); }
    /// NAN where it does not settle.
    double mean(const std::string &unit) const { return detail::sum(mixcalc_simulation_mean, handle_.get(), unit.c_str()); }
    double standard_uncertainty(const std::string &unit) const { return detail::sum(mixcalc_simulation_standard_uncertainty, handle_.get(), unit.c_str()); }
    Interval interval(Ratio coverage, const std::string &unit) const
    {
        Interval found{};
        detail::call(mixcalc_simulation_interval, handle_.get(), coverage.percent(), unit.c_str(), &found.low, &found.high);
        return found;
    }

private:
    detail::Owned<mixcalc_simulation, mixcalc_simulation_free> handle_;
};

/* --- Plans --- */

/// An amount of a product: by volume or by mass.
using Amount = std::variant<Volume, Mass>;
/// A gap per ground area, of a product dosed by volume or by mass.
using DoseGap = std::variant<LiquidDose, SolidDose>;

enum class MeasureKind : std::uint32_t { vessel = MIXCALC_MEASURE_VESSEL, scale = MIXCALC_MEASURE_SCALE, pack = MIXCALC_MEASURE_PACK };

enum class Action : std::uint32_t {
    fill = MIXCALC_ACTION_FILL,
    measure = MIXCALC_ACTION_MEASURE,
    premix = MIXCALC_ACTION_PREMIX,
    rinse = MIXCALC_ACTION_RINSE,
    agitate = MIXCALC_ACTION_AGITATE,
    top_up = MIXCALC_ACTION_TOP_UP,
    wait = MIXCALC_ACTION_WAIT,
    start_agitator = MIXCALC_ACTION_START_AGITATOR,
};

enum class Severity : std::uint32_t { stop = MIXCALC_SEVERITY_STOP, caution = MIXCALC_SEVERITY_CAUTION, note = MIXCALC_SEVERITY_NOTE };
enum class Bound : std::uint32_t { at_most = MIXCALC_BOUND_AT_MOST, at_least = MIXCALC_BOUND_AT_LEAST };

enum class Force : std::uint32_t {
    law = MIXCALC_FORCE_LAW,
    label = MIXCALC_FORCE_LABEL,
    standard = MIXCALC_FORCE_STANDARD,
    advice = MIXCALC_FORCE_ADVICE,
    fact = MIXCALC_FORCE_FACT,
};

struct LastStrip {
    Volume held_back;
    Area area;
};

/// Ground by its parts.
struct Ground {
    Area field, buffers, sprayed_twice;
};

struct Totals {
    bool usable;
    Volume safe_fill;
    Area area;
    VolumeRate volume_rate, carrier_rate;
    Volume mix, carrier;
    Area area_made_for;
    Volume residual;
    Area ground_short;
    std::optional<LastStrip> last_strip;
    std::uint64_t load_count;
    std::size_t load_entries, products, findings, cautions, substances;
    /// None where the job states an area alone.
    std::optional<Ground> ground;
};

struct Load {
    std::uint64_t first, last, count;
    Volume mix, carrier;
    Area area;
    std::size_t steps;
};

struct Filling {
    std::uint64_t count;
    Amount amount;
};

struct MeasuredAmount {
    std::string product, measure;
    MeasureKind measure_kind;
    Amount exact, measured, graduation;
    std::uint64_t graduations;
    std::vector<Filling> fillings;
    Ratio gap;
    DoseGap dose_gap;
};

struct Drawn {
    std::string measure;
    MeasureKind measure_kind;
    Amount graduation;
    std::uint64_t graduations;
};

struct MeasuredTotal {
    std::string product;
    Amount exact, measured;
    Ratio gap;
    DoseGap dose_gap;
    std::vector<Drawn> drawn;
};

struct Step {
    Action action;
    /// Empty for a step without one.
    std::string product, measure;
    /// Of a product, where there is one.
    std::size_t product_index;
    Volume carrier;
    std::optional<Volume> mark, rest;
    std::uint64_t times;
    Volume each, in_tank;
    /// How long is waited: the most is none where a label says how long.
    Time least_wait, most_wait;
};

struct Ledger {
    Volume carrier_drawn, carrier_first, carrier_premixed, carrier_rinses, carrier_topped_up;
    Volume mix_made, mix_sprayed, mix_residual;
};

struct Account {
    std::string product;
    Amount drawn, in_loads, spilled;
    std::optional<Amount> stock, left;
};

/// A number with its unit as text.
struct Stated {
    double value;
    std::string unit;
};

struct Limit {
    Bound bound;
    Stated value;
    Force force;
    std::string source;
};

/// What a value that looks like a slip of the unit may have been meant as.
struct Reading {
    Stated value;
    std::string meant, stated;
};

/// A dose and what it is counted on.
struct DoseOn {
    std::string basis;
    Stated dose;
};

/// The largest dose that the limits given leave: a sum, and no permission.
struct LargestDose {
    Stated dose;
    std::string binding;
    std::optional<std::string> parcel;
    std::optional<Stated> limit;
    std::string source;
};

struct ProductView {
    std::string name;
    std::vector<DoseOn> doses;
    /// None without a season, and where a limit could not be checked.
    std::optional<LargestDose> largest_dose;
};

/// What is not known for want of a density, or for a stop, is none.
struct SubstanceTotal {
    std::string name;
    std::optional<double> dose_kg_per_ha;
    std::optional<Mass> exact, measured;
};

struct OrderedProduct {
    std::size_t product_index;
    std::string product, group, reason;
};

struct JarTest {
    Volume mix, carrier;
    /// Per product, in the order of the job.
    std::vector<Amount> amounts;
};

struct MixingOrder {
    std::string profile, source;
    std::vector<OrderedProduct> products;
    std::optional<JarTest> jar_test;
};

struct Finding {
    Severity severity;
    /// Compare it with MIXCALC_FINDING_STOCK_SHORT and so on.
    std::string code, path, message;
    /// Number of the first load that it concerns, from 1.
    std::optional<std::uint64_t> load;
    std::optional<Stated> actual;
    std::optional<Limit> limit;
    /// The likeliest first.
    std::vector<Reading> readings;
};

struct Caution {
    std::string code, text;
};

/// A value, and between what it is where a calibration tells; an end is none where the doubt does not bound it.
template <class Q> struct Span {
    Q value;
    std::optional<Q> low, high;
};

/// Where a load runs out.
struct RunOut {
    Span<Area> area;
    /// With the boom open; none where the job states no pass.
    std::optional<Span<Length>> length;
    /// None where the job does not state their length.
    std::optional<Span<double>> passes;
};

/// The dose that a load really delivers, as far as the calibration, the measure and the tank's scale tell.
struct DeliveredDose {
    Stated dose, standard_uncertainty, low, high;
    /// None where no maximum is allowed per ground area.
    std::optional<double> probability_over;
    /// What to aim at to keep to the risk of the calibration; none where it states none.
    std::optional<Stated> aim;
};

/// How uncertain something is, with a coverage factor of 2.
template <class Q> struct Doubt {
    /// In percent of it.
    double percent;
    /// The same as an amount.
    Q amount;
};

/// The containers of a product that some equal loads empty.
struct Emptied {
    std::uint64_t count;
    /// The numbers of the loads, one for each container; the first twenty.
    std::vector<std::uint64_t> loads;
};

/// What the job does with the containers of a product. The one that is open is used up first.
struct ContainerUse {
    Amount content;
    std::uint64_t opened, emptied;
    Amount left;
    std::uint64_t take;
    /// None where it is not stated how many there are.
    std::optional<std::uint64_t> buy;
};

/// What a water analysis comes to.
struct Water {
    double hardness_g_per_l;
    std::string hardness_class;
    double ammonium_sulfate_need_g_per_l;
};

/// A size of loads with which every amount can be measured.
struct LoadSize {
    Volume mix;
    std::uint64_t count;
    /// None where they make the whole.
    std::optional<Volume> rest;
    Amount amount;
    std::optional<Amount> rest_amount;
    Stated dose;
    /// None where the measure does not say so.
    std::optional<double> uncertainty_percent;
};

struct ProductToTake {
    std::string product;
    Amount amount;
    /// The one that is open among them; none where the job states none.
    std::optional<std::uint64_t> containers;
    /// None where it is not stated how many there are.
    std::optional<std::uint64_t> buy;
};

/// Everything to take along.
struct FieldList {
    std::vector<ProductToTake> products;
    /// In all; then for the loads, what of that is for rinses, and what comes on top.
    Volume water, carrier, measure_rinses, container_rinses, tank_rinse, hands, eyes;
    /// Measures; what labels ask to be worn, in their words; products of which the job does not state it.
    std::vector<std::string> measures, mixing, spraying, unstated;
    std::string spill_kit;
};

namespace detail {

inline std::optional<Amount> known(const mixcalc_amount &amount)
{
    switch (amount.kind) {
    case MIXCALC_KIND_VOLUME:
        return Volume::from_liters(amount.volume_l);
    case MIXCALC_KIND_MASS:
        return Mass::from_kilograms(amount.mass_kg);
    default:
        return std::nullopt;
    }
}

inline Amount amount(const mixcalc_amount &given) { return known(given).value_or(Volume()); }

inline DoseGap dose_gap(const mixcalc_amount &exact, double l_per_ha, double kg_per_ha)
{
    if (exact.kind == MIXCALC_KIND_VOLUME)
        return LiquidDose::from_liters_per_hectare(l_per_ha);
    return SolidDose::from_kilograms_per_hectare(kg_per_ha);
}

template <class Q, class Make> std::optional<Span<Q>> span(double value, double low, double high, Make make)
{
    const auto end = [&make](double number) { return number != 0 ? std::optional<Q>(make(number)) : std::nullopt; };
    if (value == 0)
        return std::nullopt;
    return Span<Q>{make(value), end(low), end(high)};
}

inline std::string text(const char *borrowed) { return borrowed ? borrowed : ""; }

} // namespace detail

/// A job worked out. What it holds is asked for by index: loads and products from 0, under the counts of totals().
class Plan {
public:
    /// Plans a job document, JSON or TOML.
    explicit Plan(std::string_view job)
    {
        mixcalc_plan *made = nullptr;
        detail::call(mixcalc_plan_new, job.data() ? job.data() : "", job.size(), &made);
        plan_.reset(made);
    }

    Totals totals() const
    {
        const auto t = filled(mixcalc_totals MIXCALC_TOTALS_INIT, mixcalc_plan_totals);
        std::optional<LastStrip> strip;
        if (t.has_last_strip)
            strip = LastStrip{Volume::from_liters(t.held_back_l), Area::from_hectares(t.last_strip_ha)};
        return {t.usable != 0,
                Volume::from_liters(t.safe_fill_l),
                Area::from_hectares(t.area_ha),
                VolumeRate::from_liters_per_hectare(t.volume_rate_l_per_ha),
                VolumeRate::from_liters_per_hectare(t.carrier_rate_l_per_ha),
                Volume::from_liters(t.mix_l),
                Volume::from_liters(t.carrier_l),
                Area::from_hectares(t.area_made_for_ha),
                Volume::from_liters(t.residual_l),
                Area::from_hectares(t.ground_short_ha),
                strip,
                t.load_count,
                t.load_entries,
                t.products,
                t.findings,
                t.cautions,
                t.substances,
                t.has_ground ? std::optional(Ground{Area::from_hectares(t.field_ha), Area::from_hectares(t.buffers_ha),
                                                    Area::from_hectares(t.sprayed_twice_ha)})
                             : std::nullopt};
    }

    /// Whether it may be carried out. Where not, asking for what is measured, for steps, ledger or sheet throws
    /// MIXCALC_STATUS_PLAN_STOPPED.
    bool usable() const { return totals().usable; }

    /// Equal loads that follow each other.
    Load load(std::size_t index) const
    {
        const auto l = filled(mixcalc_load MIXCALC_LOAD_INIT, mixcalc_plan_load, index);
        return {l.first, l.last, l.count, Volume::from_liters(l.mix_l), Volume::from_liters(l.carrier_l), Area::from_hectares(l.area_ha), l.steps};
    }
    std::vector<Load> loads() const
    {
        return listed(totals().load_entries, [this](std::size_t index) { return load(index); });
    }

    std::string product_name(std::size_t product) const
    {
        const char *name = nullptr;
        detail::call(mixcalc_plan_product_name, plan_.get(), product, &name);
        return detail::text(name);
    }

    /// What a dose asks for in each of some equal loads; to be studied and not to be measured.
    Amount exact_amount(std::size_t load, std::size_t product) const
    {
        mixcalc_amount amount{};
        detail::call(mixcalc_plan_exact_amount, plan_.get(), load, product, &amount);
        return detail::amount(amount);
    }
    /// What a dose asks for in all loads; to be studied and not to be measured.
    Amount exact_total(std::size_t product) const
    {
        mixcalc_amount amount{};
        detail::call(mixcalc_plan_exact_total, plan_.get(), product, &amount);
        return detail::amount(amount);
    }

    MeasuredAmount measured_amount(std::size_t load, std::size_t product) const
    {
        const auto a = filled(mixcalc_measured_amount MIXCALC_MEASURED_AMOUNT_INIT, mixcalc_plan_measured_amount, load, product);
        std::vector<Filling> fillings{{a.fillings, detail::amount(a.filling)}};
        if (const auto last = detail::known(a.last_filling))
            fillings.push_back({1, *last});
        return {a.product,
                a.measure,
                static_cast<MeasureKind>(a.measure_kind),
                detail::amount(a.exact),
                detail::amount(a.measured),
                detail::amount(a.graduation),
                a.graduations,
                std::move(fillings),
                Ratio::from_percent(a.gap_percent),
                detail::dose_gap(a.exact, a.gap_l_per_ha, a.gap_kg_per_ha)};
    }
    std::vector<MeasuredAmount> measured_amounts(std::size_t load) const
    {
        return listed(totals().products, [this, load](std::size_t product) { return measured_amount(load, product); });
    }

    MeasuredTotal measured_total(std::size_t product) const
    {
        const auto t = filled(mixcalc_measured_total MIXCALC_MEASURED_TOTAL_INIT, mixcalc_plan_measured_total, product);
        return {t.product,
                detail::amount(t.exact),
                detail::amount(t.measured),
                Ratio::from_percent(t.gap_percent),
                detail::dose_gap(t.exact, t.gap_l_per_ha, t.gap_kg_per_ha),
                listed(t.measures, [this, product](std::size_t measure) {
                    const auto d = filled(mixcalc_drawn MIXCALC_DRAWN_INIT, mixcalc_plan_drawn, product, measure);
                    return Drawn{d.measure, static_cast<MeasureKind>(d.measure_kind), detail::amount(d.graduation), d.graduations};
                })};
    }

    Step step(std::size_t load, std::size_t index) const
    {
        const auto s = filled(mixcalc_step MIXCALC_STEP_INIT, mixcalc_plan_step, load, index);
        const auto where = [](std::uint32_t has, double l) { return has ? std::optional(Volume::from_liters(l)) : std::nullopt; };
        return {static_cast<Action>(s.action),
                detail::text(s.product),
                detail::text(s.measure),
                s.product_index,
                Volume::from_liters(s.carrier_l),
                where(s.has_mark, s.mark_l),
                where(s.has_rest, s.rest_l),
                s.times,
                Volume::from_liters(s.each_l),
                Volume::from_liters(s.in_tank_l),
                Time::from_seconds(s.least_wait_s),
                Time::from_seconds(s.most_wait_s)};
    }
    /// The steps of each of some equal loads. Those of a stopped plan are asked for in vain.
    std::vector<Step> steps(std::size_t load) const
    {
        const std::size_t count = this->load(load).steps;
        if (count == 0)
            step(load, 0); // says that a stop stands
        return listed(count, [this, load](std::size_t index) { return step(load, index); });
    }

    Ledger ledger() const
    {
        const auto l = filled(mixcalc_ledger MIXCALC_LEDGER_INIT, mixcalc_plan_ledger);
        return {Volume::from_liters(l.carrier_drawn_l),     Volume::from_liters(l.carrier_first_l),
                Volume::from_liters(l.carrier_premixed_l),  Volume::from_liters(l.carrier_rinses_l),
                Volume::from_liters(l.carrier_topped_up_l), Volume::from_liters(l.mix_made_l),
                Volume::from_liters(l.mix_sprayed_l),       Volume::from_liters(l.mix_residual_l)};
    }
    Account account(std::size_t product) const
    {
        const auto a = filled(mixcalc_account MIXCALC_ACCOUNT_INIT, mixcalc_plan_account, product);
        return {a.product,
                detail::amount(a.drawn),
                detail::amount(a.in_loads),
                detail::amount(a.spilled),
                detail::known(a.stock),
                detail::known(a.left)};
    }

    ProductView product(std::size_t product) const
    {
        const auto p = filled(mixcalc_product MIXCALC_PRODUCT_INIT, mixcalc_plan_product, product);
        ProductView found{p.name, listed(p.doses, [this, product](std::size_t dose) {
                              const auto d = filled(mixcalc_dose MIXCALC_DOSE_INIT, mixcalc_plan_dose, product, dose);
                              return DoseOn{d.basis, {d.dose, d.unit}};
                          }), {}};
        if (p.largest_dose_unit) {
            LargestDose largest{{p.largest_dose, p.largest_dose_unit}, p.binding, {}, {}, p.source};
            if (p.parcel)
                largest.parcel = p.parcel;
            if (p.limit_unit)
                largest.limit = Stated{p.limit, p.limit_unit};
            found.largest_dose = std::move(largest);
        }
        return found;
    }
    std::vector<SubstanceTotal> substances() const
    {
        return listed(totals().substances, [this](std::size_t index) {
            const auto s = filled(mixcalc_substance MIXCALC_SUBSTANCE_INIT, mixcalc_plan_substance, index);
            SubstanceTotal found{s.name, {}, {}, {}};
            if (s.has_dose)
                found.dose_kg_per_ha = s.dose_kg_per_ha;
            if (s.has_exact)
                found.exact = Mass::from_kilograms(s.exact_kg);
            if (s.has_measured)
                found.measured = Mass::from_kilograms(s.measured_kg);
            return found;
        });
    }
    /// The order in which the products go into the tank; none where the job asks for none.
    std::optional<MixingOrder> mixing() const
    {
        const auto m = filled(mixcalc_mixing MIXCALC_MIXING_INIT, mixcalc_plan_mixing);
        if (!m.profile)
            return std::nullopt;
        MixingOrder order{m.profile, m.source, listed(m.products, [this](std::size_t place) {
                              const auto p = filled(mixcalc_ordered_product MIXCALC_ORDERED_PRODUCT_INIT, mixcalc_plan_ordered_product, place);
                              return OrderedProduct{p.product_index, p.product, p.group, p.reason};
                          }), {}};
        if (m.has_jar_test)
            order.jar_test = JarTest{Volume::from_liters(m.jar_mix_l), Volume::from_liters(m.jar_carrier_l),
                                     listed(m.products, [this](std::size_t product) {
                                         mixcalc_amount amount{};
                                         detail::call(mixcalc_plan_jar_amount, plan_.get(), product, &amount);
                                         return detail::amount(amount);
                                     })};
        return order;
    }

    /// How uncertain a measured amount is; none where its measure states neither class nor tolerance.
    std::optional<Doubt<Amount>> uncertainty(std::size_t load, std::size_t product) const
    {
        const auto u = filled(mixcalc_uncertainty MIXCALC_UNCERTAINTY_INIT, mixcalc_plan_uncertainty, load, product);
        if (!u.is_known)
            return std::nullopt;
        return Doubt<Amount>{u.percent, detail::amount(u.amount)};
    }
    /// How uncertain the mix is where it is read on the tank's scale; none where no mark is reached.
    std::optional<Doubt<Volume>> mix_uncertainty(std::size_t load) const
    {
        const auto u = filled(mixcalc_mix_uncertainty MIXCALC_MIX_UNCERTAINTY_INIT, mixcalc_plan_mix_uncertainty, load);
        if (u.percent == 0)
            return std::nullopt;
        return Doubt<Volume>{u.percent, Volume::from_liters(u.mix_l)};
    }
    /// The containers of a product that some equal loads empty; none where the job states none.
    std::optional<Emptied> emptied(std::size_t load, std::size_t product) const
    {
        const auto e = filled(mixcalc_emptied MIXCALC_EMPTIED_INIT, mixcalc_plan_emptied, load, product);
        if (!e.is_known)
            return std::nullopt;
        return Emptied{e.count, listed(e.loads, [this, load, product](std::size_t index) {
                           std::uint64_t number = 0;
                           detail::call(mixcalc_plan_emptying_load, plan_.get(), load, product, index, &number);
                           return number;
                       })};
    }
    /// What the job does with the containers of a product; none where it states none.
    std::optional<ContainerUse> containers(std::size_t product) const
    {
        const auto c = filled(mixcalc_containers MIXCALC_CONTAINERS_INIT, mixcalc_plan_containers, product);
        if (!c.is_known)
            return std::nullopt;
        ContainerUse used{detail::amount(c.content), c.opened, c.emptied, detail::amount(c.left), c.take, {}};
        if (c.has_buy)
            used.buy = c.buy;
        return used;
    }
    /// What the water analysis comes to; none where the job states none.
    std::optional<Water> water() const
    {
        const auto w = filled(mixcalc_water MIXCALC_WATER_INIT, mixcalc_plan_water);
        if (!w.hardness_class)
            return std::nullopt;
        return Water{w.hardness_g_per_l, w.hardness_class, w.ammonium_sulfate_need_g_per_l};
    }
    /// A size of loads with which every amount can be measured; throws MIXCALC_STATUS_INDEX where there are not so many.
    LoadSize load_size(std::size_t size) const
    {
        const auto s = filled(mixcalc_load_size MIXCALC_LOAD_SIZE_INIT, mixcalc_plan_load_size, size);
        LoadSize found{Volume::from_liters(s.mix_l), s.count, {}, detail::amount(s.amount), detail::known(s.rest_amount), {s.dose, s.dose_unit}, {}};
        if (s.rest_l > 0)
            found.rest = Volume::from_liters(s.rest_l);
        if (s.uncertainty_percent > 0)
            found.uncertainty_percent = s.uncertainty_percent;
        return found;
    }
    /// What would help with an amount that is hard to measure.
    std::vector<std::string> help(std::size_t finding) const
    {
        const auto f = filled(mixcalc_finding MIXCALC_FINDING_INIT, mixcalc_plan_finding, finding);
        return listed(f.helps, [this, finding](std::size_t index) {
            const char *help = nullptr;
            detail::call(mixcalc_plan_help, plan_.get(), finding, index, &help);
            return detail::text(help);
        });
    }
    /// Everything to take along; none where the job does not ask for it, and where a stop stands.
    std::optional<FieldList> field_list() const
    {
        const auto l = filled(mixcalc_field_list MIXCALC_FIELD_LIST_INIT, mixcalc_plan_field_list);
        if (!l.spill_kit)
            return std::nullopt;
        const auto texts = [this](std::uint32_t list, std::size_t count) {
            return listed(count, [this, list](std::size_t entry) {
                const char *text = nullptr;
                detail::call(mixcalc_plan_listed, plan_.get(), list, entry, &text);
                return detail::text(text);
            });
        };
        return FieldList{listed(l.products, [this](std::size_t index) {
                             const auto p = filled(mixcalc_product_to_take MIXCALC_PRODUCT_TO_TAKE_INIT, mixcalc_plan_product_to_take, index);
                             ProductToTake found{p.product, detail::amount(p.amount), {}, {}};
                             if (p.has_containers)
                                 found.containers = p.containers;
                             if (p.has_buy)
                                 found.buy = p.buy;
                             return found;
                         }),
                         Volume::from_liters(l.water_l),
                         Volume::from_liters(l.carrier_l),
                         Volume::from_liters(l.measure_rinses_l),
                         Volume::from_liters(l.container_rinses_l),
                         Volume::from_liters(l.tank_rinse_l),
                         Volume::from_liters(l.hands_l),
                         Volume::from_liters(l.eyes_l),
                         texts(MIXCALC_LIST_MEASURES, l.measures),
                         texts(MIXCALC_LIST_MIXING, l.mixing),
                         texts(MIXCALC_LIST_SPRAYING, l.spraying),
                         texts(MIXCALC_LIST_UNSTATED, l.unstated),
                         l.spill_kit};
    }

    /// Where each of some equal loads runs out; none where the job has neither a calibration nor a pass.
    std::optional<RunOut> run_out(std::size_t load) const
    {
        const auto r = filled(mixcalc_run_out MIXCALC_RUN_OUT_INIT, mixcalc_plan_run_out, load);
        const auto area = detail::span<Area>(r.area_ha, r.area_low_ha, r.area_high_ha, Area::from_hectares);
        if (!area)
            return std::nullopt;
        return RunOut{*area, detail::span<Length>(r.length_m, r.length_low_m, r.length_high_m, Length::from_meters),
                      detail::span<double>(r.passes, r.passes_low, r.passes_high, [](double number) { return number; })};
    }
    /// The dose of a product that each of some equal loads really delivers; none without a calibration.
    std::optional<DeliveredDose> delivered(std::size_t load, std::size_t product) const
    {
        const auto d = filled(mixcalc_delivered MIXCALC_DELIVERED_INIT, mixcalc_plan_delivered, load, product);
        if (!d.unit)
            return std::nullopt;
        const std::string unit = d.unit;
        DeliveredDose found{{d.dose, unit}, {d.standard_uncertainty, unit}, {d.low, unit}, {d.high, unit}, {}, {}};
        if (d.has_maximum)
            found.probability_over = d.probability_over;
        if (d.aim != 0)
            found.aim = Stated{d.aim, unit};
        return found;
    }

    Finding finding(std::size_t index) const
    {
        const auto f = filled(mixcalc_finding MIXCALC_FINDING_INIT, mixcalc_plan_finding, index);
        Finding found{static_cast<Severity>(f.severity), f.code, f.path, f.message, {}, {}, {}, {}};
        if (f.load)
            found.load = f.load;
        if (f.actual_unit)
            found.actual = Stated{f.actual, f.actual_unit};
        if (f.limit_unit)
            found.limit = Limit{static_cast<Bound>(f.bound), {f.limit, f.limit_unit}, static_cast<Force>(f.force), f.source};
        found.readings = listed(f.readings, [this, index](std::size_t reading) {
            const auto r = filled(mixcalc_reading MIXCALC_READING_INIT, mixcalc_plan_reading, index, reading);
            return Reading{{r.value, r.unit}, r.meant, r.stated};
        });
        return found;
    }
    /// Stops first, then cautions, then notes.
    std::vector<Finding> findings() const
    {
        return listed(totals().findings, [this](std::size_t index) { return finding(index); });
    }
    /// Cautions for people: show all of them beside whatever you show of the plan.
    std::vector<Caution> cautions() const
    {
        return listed(totals().cautions, [this](std::size_t index) {
            const auto c = filled(mixcalc_caution MIXCALC_CAUTION_INIT, mixcalc_plan_caution, index);
            return Caution{c.code, c.text};
        });
    }

    std::string json() const { return written(mixcalc_plan_json); }
    std::string job_json() const { return written(mixcalc_plan_job_json); }
    std::string working_json() const { return written(mixcalc_plan_working_json); }
    std::string sheet() const { return written(mixcalc_plan_sheet); }
    std::string sheet_with_working() const { return written(mixcalc_plan_sheet_with_working); }
    std::string findings_page() const { return written(mixcalc_plan_findings_page); }

private:
    template <class Struct, class Function, class... Indices> Struct filled(Struct start, Function function, Indices... indices) const
    {
        detail::call(function, plan_.get(), indices..., &start);
        return start;
    }

    template <class Make, class Item = decltype(std::declval<Make>()(std::size_t()))>
    static std::vector<Item> listed(std::size_t count, Make make)
    {
        std::vector<Item> list;
        list.reserve(count);
        for (std::size_t index = 0; index < count; ++index)
            list.push_back(make(index));
        return list;
    }

    template <class Function> std::string written(Function function) const
    {
        char *text = nullptr;
        std::size_t len = 0;
        detail::call(function, plan_.get(), &text, &len);
        const std::unique_ptr<char, void (*)(char *)> owned(text, mixcalc_string_free);
        return std::string(text, len);
    }

    struct Free {
        void operator()(mixcalc_plan *plan) const noexcept { mixcalc_plan_free(plan); }
    };
    std::unique_ptr<mixcalc_plan, Free> plan_;
};

/// What a job document may hold, as JSON Schema 2020-12.
inline std::string_view job_schema() { return mixcalc_job_schema(); }
/// What a plan document may hold, as JSON Schema 2020-12.
inline std::string_view plan_schema() { return mixcalc_plan_schema(); }
/// Version of the library that the program runs with; MIXCALC_VERSION is the one it was built with.
inline std::string_view version() { return mixcalc_version(); }
/// MIXCALC_ABI_VERSION of the library that the program runs with.
inline std::uint32_t abi_version() { return mixcalc_abi_version(); }

/// The same sums over columns: each row is its sum of one number to the last bit. `status` receives for each row 0 or the code of its error;
/// a row that is refused is not a number in every output and stops no other; what is returned is how many are refused. No output lies where
/// an input or another output does.
namespace columns {

/// The numbers of an input: side by side, in steps, or one for all rows.
struct Column : mixcalc_column {
    Column(const double *first, std::size_t apart = 1) noexcept : mixcalc_column{first, apart} {}
    /// One number for all rows; it is looked at until the function returns.
    static Column same(const double &value) noexcept { return Column(&value, 0); }
};

namespace detail {

template <class Function, class... Arguments> std::size_t rows(Function function, Arguments... arguments)
{
    std::size_t refused = 0;
    mixcalc::detail::call(function, arguments..., &refused);
    return refused;
}

} // namespace detail

/// Throws the error of a row that was refused; does nothing for any other.
inline void explain(const char *calculation, const std::vector<Column> &inputs, std::size_t rows, std::size_t row)
{
    const std::vector<mixcalc_column> given(inputs.begin(), inputs.end());
    mixcalc::detail::call(mixcalc_columns_explain, calculation, given.data(), given.size(), rows, row);
}

// --- Made from the list of calculations ---
/// The loads of one liquid product at a volume rate: mix, product, full loads and the part load after them, and the product in each. Nothing is measured here, and no limit of a label is known.
inline std::size_t plan(Column area_ha, Column volume_rate_l_per_ha, Column dose_l_per_ha, Column safe_fill_l, std::size_t rows, double *mix_l, double *product_l, double *full_loads, double *part_load_l, double *product_in_full_load_l, double *product_in_part_load_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_plan, area_ha, volume_rate_l_per_ha, dose_l_per_ha, safe_fill_l, rows, threads, mix_l, product_l, full_loads, part_load_l, product_in_full_load_l, product_in_part_load_l, status);
}

/// Volume of mix for an area at a volume rate.
inline std::size_t mix(Column volume_rate_l_per_ha, Column area_ha, std::size_t rows, double *mix_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_mix, volume_rate_l_per_ha, area_ha, rows, threads, mix_l, status);
}

/// Ground that a volume of mix serves.
inline std::size_t area_for_mix(Column mix_l, Column volume_rate_l_per_ha, std::size_t rows, double *area_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_area_for_mix, mix_l, volume_rate_l_per_ha, rows, threads, area_ha, status);
}

/// Full loads, and the volume of the part load after them.
inline std::size_t full_and_part_load(Column mix_l, Column safe_fill_l, std::size_t rows, double *full_loads, double *part_load_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_full_and_part_load, mix_l, safe_fill_l, rows, threads, full_loads, part_load_l, status);
}

/// The most that a tank may be filled to, by what is known of it: the lesser of the nominal volume and the brim capacity without the headspace, down to a mark of the tank.
inline std::size_t safe_fill(Column nominal_l, Column brim_l, Column headspace_percent, Column graduation_l, std::size_t rows, double *safe_fill_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_safe_fill, nominal_l, brim_l, headspace_percent, graduation_l, rows, threads, safe_fill_l, status);
}

/// Whole graduations nearest to a volume, a half going down, and never over the maximum.
inline std::size_t graduations_of_volume(Column amount_l, Column graduation_l, Column maximum_l, std::size_t rows, double *graduations, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_graduations_of_volume, amount_l, graduation_l, maximum_l, rows, threads, graduations, status);
}

/// Whole graduations nearest to a mass, a half going down, and never over the maximum.
inline std::size_t graduations_of_mass(Column amount_kg, Column graduation_kg, Column maximum_kg, std::size_t rows, double *graduations, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_graduations_of_mass, amount_kg, graduation_kg, maximum_kg, rows, threads, graduations, status);
}

/// Volume of a product for an area, at a dose by volume.
inline std::size_t liquid_amount(Column liquid_dose_l_per_ha, Column area_ha, std::size_t rows, double *amount_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_liquid_amount, liquid_dose_l_per_ha, area_ha, rows, threads, amount_l, status);
}

/// Mass of a product for an area, at a dose by mass.
inline std::size_t solid_amount(Column solid_dose_kg_per_ha, Column area_ha, std::size_t rows, double *amount_kg, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_solid_amount, solid_dose_kg_per_ha, area_ha, rows, threads, amount_kg, status);
}

/// Volume of a product in a volume of mix, at a dose per volume of finished mix.
inline std::size_t liquid_amount_in_mix(Column volume_fraction_ml_per_100_l, Column mix_l, std::size_t rows, double *amount_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_liquid_amount_in_mix, volume_fraction_ml_per_100_l, mix_l, rows, threads, amount_l, status);
}

/// Mass of a product in a volume of mix, at a dose per volume of finished mix.
inline std::size_t solid_amount_in_mix(Column mass_concentration_g_per_100_l, Column mix_l, std::size_t rows, double *amount_kg, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_solid_amount_in_mix, mass_concentration_g_per_100_l, mix_l, rows, threads, amount_kg, status);
}

/// Dose by volume per ground area that a dose per volume of mix comes to.
inline std::size_t liquid_dose(Column volume_fraction_ml_per_100_l, Column volume_rate_l_per_ha, std::size_t rows, double *liquid_dose_l_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_liquid_dose, volume_fraction_ml_per_100_l, volume_rate_l_per_ha, rows, threads, liquid_dose_l_per_ha, status);
}

/// Dose by mass per ground area that a dose per volume of mix comes to.
inline std::size_t solid_dose(Column mass_concentration_g_per_100_l, Column volume_rate_l_per_ha, std::size_t rows, double *solid_dose_kg_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_solid_dose, mass_concentration_g_per_100_l, volume_rate_l_per_ha, rows, threads, solid_dose_kg_per_ha, status);
}

/// Dose per volume of finished mix that a dose by volume per ground area comes to.
inline std::size_t volume_fraction(Column liquid_dose_l_per_ha, Column volume_rate_l_per_ha, std::size_t rows, double *volume_fraction_ml_per_100_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_volume_fraction, liquid_dose_l_per_ha, volume_rate_l_per_ha, rows, threads, volume_fraction_ml_per_100_l, status);
}

/// Dose per volume of finished mix that a dose by mass per ground area comes to.
inline std::size_t mass_concentration(Column solid_dose_kg_per_ha, Column volume_rate_l_per_ha, std::size_t rows, double *mass_concentration_g_per_100_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_mass_concentration, solid_dose_kg_per_ha, volume_rate_l_per_ha, rows, threads, mass_concentration_g_per_100_l, status);
}

/// Active substance per ground area in a dose by volume.
inline std::size_t substance_in_liquid_dose(Column content_g_per_l, Column liquid_dose_l_per_ha, std::size_t rows, double *substance_kg_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_substance_in_liquid_dose, content_g_per_l, liquid_dose_l_per_ha, rows, threads, substance_kg_per_ha, status);
}

/// Active substance per ground area in a dose by mass.
inline std::size_t substance_in_solid_dose(Column content_g_per_kg, Column solid_dose_kg_per_ha, std::size_t rows, double *substance_kg_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_substance_in_solid_dose, content_g_per_kg, solid_dose_kg_per_ha, rows, threads, substance_kg_per_ha, status);
}

/// Dose by volume that gives an amount of active substance per ground area.
inline std::size_t liquid_dose_of_substance(Column content_g_per_l, Column substance_kg_per_ha, std::size_t rows, double *liquid_dose_l_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_liquid_dose_of_substance, content_g_per_l, substance_kg_per_ha, rows, threads, liquid_dose_l_per_ha, status);
}

/// Dose by mass that gives an amount of active substance per ground area.
inline std::size_t solid_dose_of_substance(Column content_g_per_kg, Column substance_kg_per_ha, std::size_t rows, double *solid_dose_kg_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_solid_dose_of_substance, content_g_per_kg, substance_kg_per_ha, rows, threads, solid_dose_kg_per_ha, status);
}

/// Mass of a volume of a liquid.
inline std::size_t liquid_mass(Column density_kg_per_l, Column volume_l, std::size_t rows, double *mass_kg, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_liquid_mass, density_kg_per_l, volume_l, rows, threads, mass_kg, status);
}

/// Volume of a mass of a liquid.
inline std::size_t liquid_volume(Column mass_kg, Column density_kg_per_l, std::size_t rows, double *volume_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_liquid_volume, mass_kg, density_kg_per_l, rows, threads, volume_l, status);
}

/// Volume rate at a flow, a speed over the ground and a swath.
inline std::size_t volume_rate(Column flow_l_per_min, Column speed_km_per_h, Column swath_m, std::size_t rows, double *volume_rate_l_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_volume_rate, flow_l_per_min, speed_km_per_h, swath_m, rows, threads, volume_rate_l_per_ha, status);
}

/// Flow of all open nozzles that a volume rate takes.
inline std::size_t required_flow(Column volume_rate_l_per_ha, Column speed_km_per_h, Column swath_m, std::size_t rows, double *flow_l_per_min, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_required_flow, volume_rate_l_per_ha, speed_km_per_h, swath_m, rows, threads, flow_l_per_min, status);
}

/// Speed over the ground at which a flow gives a volume rate.
inline std::size_t required_speed(Column flow_l_per_min, Column volume_rate_l_per_ha, Column swath_m, std::size_t rows, double *speed_km_per_h, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_required_speed, flow_l_per_min, volume_rate_l_per_ha, swath_m, rows, threads, speed_km_per_h, status);
}

/// Swath over which a flow gives a volume rate at a speed.
inline std::size_t required_swath(Column flow_l_per_min, Column volume_rate_l_per_ha, Column speed_km_per_h, std::size_t rows, double *swath_m, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_required_swath, flow_l_per_min, volume_rate_l_per_ha, speed_km_per_h, rows, threads, swath_m, status);
}

/// Ground treated in a time. Turning and filling are not in it.
inline std::size_t work_rate(Column speed_km_per_h, Column swath_m, std::size_t rows, double *work_rate_ha_per_h, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_work_rate, speed_km_per_h, swath_m, rows, threads, work_rate_ha_per_h, status);
}

/// Time that the nozzles are open over an area. Turning and filling are not in it.
inline std::size_t spraying_time(Column area_ha, Column work_rate_ha_per_h, std::size_t rows, double *time_s, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_spraying_time, area_ha, work_rate_ha_per_h, rows, threads, time_s, status);
}

/// Flow from a volume that was caught in a time.
inline std::size_t flow(Column volume_l, Column time_s, std::size_t rows, double *flow_l_per_min, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_flow, volume_l, time_s, rows, threads, flow_l_per_min, status);
}

/// Speed from a distance that was covered in a time.
inline std::size_t speed(Column distance_m, Column time_s, std::size_t rows, double *speed_km_per_h, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_speed, distance_m, time_s, rows, threads, speed_km_per_h, status);
}

/// Length of a course that a swath treats an area on.
inline std::size_t course_length(Column area_ha, Column swath_m, std::size_t rows, double *course_length_m, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_course_length, area_ha, swath_m, rows, threads, course_length_m, status);
}

/// One point of an as-applied log: ground that the swath treats, mix that went on it, mix that the target asks for on it, and the applied rate as a part of the target.
inline std::size_t applied_point(Column distance_m, Column swath_m, Column overlap_m, Column applied_l_per_ha, Column target_l_per_ha, std::size_t rows, double *area_ha, double *mix_l, double *target_mix_l, double *to_target, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_applied_point, distance_m, swath_m, overlap_m, applied_l_per_ha, target_l_per_ha, rows, threads, area_ha, mix_l, target_mix_l, to_target, status);
}

/// Density of pure water at a temperature from 0 to 40 °C.
inline std::size_t water_density(Column temperature_c, std::size_t rows, double *density_kg_per_l, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_water_density, temperature_c, rows, threads, density_kg_per_l, status);
}

/// Flow of a nozzle at a pressure, by the square root of the pressure, from its flow at one pressure.
inline std::size_t flow_at_pressure(Column rated_flow_l_per_min, Column rated_pressure_kpa, Column pressure_kpa, std::size_t rows, double *flow_l_per_min, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_flow_at_pressure, rated_flow_l_per_min, rated_pressure_kpa, pressure_kpa, rows, threads, flow_l_per_min, status);
}

/// Pressure at which a nozzle has a flow, by the square root of the pressure, from its flow at one pressure.
inline std::size_t required_pressure(Column rated_flow_l_per_min, Column rated_pressure_kpa, Column flow_l_per_min, std::size_t rows, double *pressure_kpa, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_required_pressure, rated_flow_l_per_min, rated_pressure_kpa, flow_l_per_min, rows, threads, pressure_kpa, status);
}

/// Dose by volume that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
inline std::size_t delivered_liquid_dose(Column amount_l, Column amount_standard_uncertainty_l, Column mix_l, Column mix_standard_uncertainty_l, Column volume_rate_l_per_ha, Column volume_rate_standard_uncertainty_l_per_ha, std::size_t rows, double *liquid_dose_l_per_ha, double *liquid_dose_standard_uncertainty_l_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_delivered_liquid_dose, amount_l, amount_standard_uncertainty_l, mix_l, mix_standard_uncertainty_l, volume_rate_l_per_ha, volume_rate_standard_uncertainty_l_per_ha, rows, threads, liquid_dose_l_per_ha, liquid_dose_standard_uncertainty_l_per_ha, status);
}

/// Dose by mass that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
inline std::size_t delivered_solid_dose(Column amount_kg, Column amount_standard_uncertainty_kg, Column mix_l, Column mix_standard_uncertainty_l, Column volume_rate_l_per_ha, Column volume_rate_standard_uncertainty_l_per_ha, std::size_t rows, double *solid_dose_kg_per_ha, double *solid_dose_standard_uncertainty_kg_per_ha, std::uint16_t *status, std::size_t threads = 1)
{
    return detail::rows(mixcalc_columns_delivered_solid_dose, amount_kg, amount_standard_uncertainty_kg, mix_l, mix_standard_uncertainty_l, volume_rate_l_per_ha, volume_rate_standard_uncertainty_l_per_ha, rows, threads, solid_dose_kg_per_ha, solid_dose_standard_uncertainty_kg_per_ha, status);
}

// --- Up to here ---

} // namespace columns

} // namespace mixcalc

#endif
