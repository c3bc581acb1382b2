// Plans and quantities through mixcalc.hpp: what compiles, what is thrown, what is freed.
//
//     quantities JOB STOPPED    STOPPED is a job whose plan has a stop; exits 1 where a promise does not hold

#include "mixcalc.hpp"
#include "../must.h"

#include <cmath>
#include <type_traits>

using namespace mixcalc;
using namespace mixcalc::literals;

// A literal is known when the program is compiled, and a claim costs nothing.
static_assert(VolumeRate{200.0_L_per_ha}.liters_per_hectare() == 200);
static_assert(2_ha + 0.5_ha == 2.5_ha && 3 * 2_m > 5_m && 6_L / 2_L == 3);
static_assert(sizeof(VolumeRate) == sizeof(double) && std::is_trivially_copyable_v<VolumeRate>);
static_assert(!std::is_convertible_v<VolumePerArea, VolumeRate> && !std::is_convertible_v<double, Area>);
static_assert(!std::is_constructible_v<VolumeRate, LiquidDose> && !std::is_constructible_v<Area, double>);
static_assert(!std::is_copy_constructible_v<Plan> && std::is_nothrow_move_constructible_v<Plan>);

static bool near(double a, double b) { return std::fabs(a - b) <= 1e-12 * std::fabs(b); }

template <class Call> static Error thrown(Call call)
{
    try {
        call();
    } catch (const Error &error) {
        return error;
    }
    MUST(!"an error is thrown");
    std::abort();
}

static void sums_are_those_of_c()
{
    const VolumeRate rate{200.0_L_per_ha};
    double c = 0;
    MUST(mixcalc_mix_l(200, 12.4, &c, nullptr) == MIXCALC_STATUS_OK);
    MUST((rate * 12.4_ha).liters() == c && (12.4_ha * rate).liters() == c && mix(rate, 12.4_ha).liters() == c);
    MUST(near((Volume::from_liters(600) / rate).hectares(), 3));
    MUST(near((LiquidDose{1.5_L_per_ha} * 2.4_ha).liters(), 3.6));
    MUST(near((SolidDose{0.25_kg_per_ha} * 2.4_ha).kilograms(), 0.6));
    MUST(near((150_mL_per_100_L * 600_L).liters(), 0.9) && near((50_g_per_100_L * 600_L).kilograms(), 0.3));
    MUST(near((150_mL_per_100_L * VolumeRate{300_L_per_ha}).liters_per_hectare(), 0.45));
    MUST(near((50_g_per_100_L * VolumeRate{300_L_per_ha}).kilograms_per_hectare(), 0.15));
    MUST(near((LiquidDose{1.5_L_per_ha} / VolumeRate{300_L_per_ha}).milliliters_per_100_liters(), 500));
    MUST(near((SolidDose{0.15_kg_per_ha} / VolumeRate{300_L_per_ha}).grams_per_100_liters(), 50));
    MUST(near((250_g_per_L * LiquidDose{1.2_L_per_ha}).kilograms_per_hectare(), 0.3));
    MUST(near((500_g_per_kg * SolidDose{0.4_kg_per_ha}).kilograms_per_hectare(), 0.2));
    MUST(near((1.1_kg_per_L * 5_L).kilograms(), 5.5) && near((5.5_kg / 1.1_kg_per_L).liters(), 5));
    MUST(near((8_km_per_h * 24_m).hectares_per_hour(), 19.2) && near((9.6_ha / 19.2_ha_per_h).seconds(), 1800));
    MUST(near((0.6_L / 30_s).liters_per_minute(), 1.2) && near((50_m / 45_s).kilometers_per_hour(), 4));
    const VolumeRate walked = volume_rate(1.2_L_per_min, 4_km_per_h, 1_m);
    MUST(near(walked.liters_per_hectare(), 180));
    MUST(near(required_flow(walked, 4_km_per_h, 1_m).liters_per_minute(), 1.2));
    MUST(near(required_speed(1.2_L_per_min, walked, 1_m).kilometers_per_hour(), 4));
    MUST(near(required_swath(1.2_L_per_min, walked, 4_km_per_h).meters(), 1));
    MUST(near(safe_fill({16_L, 17_L, 10_percent, 1_L}).liters(), 15) && near(safe_fill({{}, 20_L, 10_percent, {}}).liters(), 18));
    MUST(full_and_part_load(240_L, 95_L).full_loads == 2 && near(full_and_part_load(240_L, 95_L).part_load.liters(), 50));
    MUST(graduations(466_mL, 10_mL, 466_mL) == 46 && graduations(12_g, 5_g, 20_g) == 2);
}

static void units_are_read_and_refused()
{
    MUST(near((20_us_gal_per_ac).in("L/ha"), 20 * 3.785411784 / 0.40468564224));
    MUST(near(VolumeRate::read("20 US gal/ac").liters_per_hectare(), VolumeRate{20_us_gal_per_ac}.liters_per_hectare()));
    MUST(near(Area::of(1, "ac").hectares(), 0.40468564224) && near((1_ac).in("m2"), 4046.8564224));
    const Error gal = thrown([] { Volume::read("3 gal"); });
    MUST(gal.code() == MIXCALC_STATUS_AMBIGUOUS_UNIT && gal.allowed() == "US gal or imp gal" && std::string(gal.what()).size() > 20);
    MUST(thrown([] { VolumeRate::read("300 kg/ha"); }).code() == MIXCALC_STATUS_WRONG_QUANTITY);
    MUST(thrown([] { Area::of(1, "L"); }).code() == MIXCALC_STATUS_WRONG_QUANTITY);
    const Error still = thrown([] { volume_rate(1.2_L_per_min, 0_km_per_h, 1_m); });
    MUST(still.code() == MIXCALC_STATUS_NOT_POSITIVE && still.path() == "speed" && still.given() == "0 km/h");
    MUST(thrown([] { VolumeRate{1_L_per_ha} * Area::from_hectares(NAN); }).code() == MIXCALC_STATUS_NOT_FINITE);
    MUST(thrown([] { safe_fill({{}, {}, 10_percent, {}}); }).code() == MIXCALC_STATUS_MISSING_INPUT);
    MUST(thrown([] { graduations(1_mL, 10_mL, 20_mL); }).path() == "amount");
    MUST(thrown([] { full_and_part_load(1_L, Volume()); }).path() == "safe_fill");
}

static void a_plan_gives_what_it_holds(const std::string &job)
{
    Plan first(job);
    const Plan plan = std::move(first);
    const Totals totals = plan.totals();
    MUST(plan.usable() && totals.load_entries == plan.loads().size() && totals.products == 3 && totals.last_strip);
    MUST(totals.mix <= totals.volume_rate * totals.area && totals.safe_fill == plan.loads()[0].mix);
    std::uint64_t loads = 0;
    for (std::size_t load = 0; load < totals.load_entries; ++load) {
        loads += plan.load(load).count;
        MUST(plan.steps(load).size() == plan.load(load).steps && plan.steps(load)[0].action == Action::fill);
        MUST(plan.steps(load).back().in_tank == plan.load(load).mix);
        for (const MeasuredAmount &amount : plan.measured_amounts(load)) {
            MUST(!amount.product.empty() && !amount.measure.empty() && amount.graduations > 0 && amount.gap < 5_percent);
            MUST(amount.exact.index() == amount.measured.index() && amount.exact.index() == amount.dose_gap.index());
            MUST(!amount.fillings.empty() && amount.fillings[0].amount.index() == amount.graduation.index());
        }
    }
    MUST(loads == totals.load_count);
    for (std::size_t product = 0; product < totals.products; ++product) {
        const MeasuredTotal total = plan.measured_total(product);
        MUST(total.product == plan.product_name(product) && total.exact == plan.exact_total(product) && !total.drawn.empty());
        MUST(plan.account(product).drawn == total.measured);
        MUST(plan.exact_amount(0, product) == plan.measured_amount(0, product).exact);
    }
    MUST(std::holds_alternative<Mass>(plan.exact_total(0)) && std::holds_alternative<Volume>(plan.exact_total(1)));
    MUST(plan.account(1).stock == Amount(5_L) && !plan.account(0).stock && !plan.account(0).left);
    MUST(near(plan.ledger().mix_made.liters(), totals.mix.liters()));
    MUST(plan.cautions().size() == totals.cautions && plan.cautions()[0].text.size() > 10);
    MUST(Plan(plan.job_json()).json() == plan.json() && plan.sheet_with_working().size() > plan.sheet().size());
    MUST(plan.findings_page().size() > 0 && plan.working_json()[0] == '[');
    MUST(thrown([&] { plan.load(totals.load_entries); }).code() == MIXCALC_STATUS_INDEX);
}

static void a_stopped_plan_throws(const std::string &job)
{
    const Plan plan(job);
    MUST(!plan.usable() && plan.findings()[0].severity == Severity::stop);
    const Finding stop = plan.findings()[0];
    MUST(stop.code == MIXCALC_FINDING_OVER_MAXIMUM_DOSE && stop.path == "products[1].dose");
    MUST(stop.actual && stop.limit && stop.limit->bound == Bound::at_most && stop.limit->force == Force::label);
    MUST(stop.limit->value.unit == stop.actual->unit && stop.limit->value.value < stop.actual->value);
    MUST(thrown([&] { plan.sheet(); }).code() == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(thrown([&] { plan.measured_amounts(0); }).code() == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(thrown([&] { plan.measured_total(0); }).code() == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(thrown([&] { plan.steps(0); }).code() == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(thrown([&] { plan.ledger(); }).code() == MIXCALC_STATUS_PLAN_STOPPED);
    MUST(std::holds_alternative<Mass>(plan.exact_amount(0, 0)));
}

static void calibration_is_that_of_c()
{
    const auto flow = Uncertain::from_repeats("catches", {1.19, 1.2, 1.21}, "L/min");
    const auto slow = Uncertain::from_tolerance("speed", 8_km_per_h, 0.1_km_per_h), fast = Uncertain::exact(10_km_per_h);
    const auto swath = Uncertain::exact(0.5_m);
    const auto calibration = Calibration::from_flow(flow, slow, swath);
    const Uncertain rate = calibration.volume_rate();
    MUST(near(rate.value<VolumeRate>().liters_per_hectare(), 180) && rate.contributions("L/ha")[0].name == "speed");
    MUST(thrown([&] { rate.value<Area>(); }).code() == MIXCALC_STATUS_WRONG_QUANTITY);
    MUST(calibration.formula() == "Q / (v * w)" && calibration.working().find("Q / (v * w)") != std::string::npos);
    MUST(calibration.working(System::us) != calibration.working());
    MUST(near(calibration.after_speed(slow, fast).value("L/ha"), 144));
    const auto [band, field] = Calibration::from_band(flow, fast, Uncertain::exact(0.25_m), Uncertain::exact(0.75_m));
    MUST(near(band.volume_rate().value("L/ha"), 3 * field.volume_rate().value("L/ha")));
    MUST(thrown([&] { Calibration::from_flow(flow, swath, swath); }).path() == "speed");
    const Setting may{"knapsack 2", "A", "4 x 03", "level stubble", "2026-05-01", 200};
    Setting july = may;
    july.ground = "slope";
    MUST(calibration.with_setting(may).differences(july, 30) == MIXCALC_DIFFERENCE_GROUND);

    Uncertain copied = rate;
    copied = copied - rate;
    MUST(copied.standard_uncertainty("L/ha") == 0 && rate.standard_uncertainty("L/ha") > 0);
    MUST(near(Uncertain::mean({flow, flow}).value("L/min"), 1.2) && (flow / flow).standard_uncertainty("1") == 0);
    const Interval interval = rate.interval(95_percent, "L/ha");
    MUST(interval.low < 180 && 180 < interval.high && rate.side_of(300, "L/ha", 95_percent) == Side::under);
    MUST(near(rate.probability_over(rate.value("L/ha"), "L/ha").percent(), 50) && rate.aim_under(200, "L/ha", 5_percent) < 200);

    MUST(rated_flow("03", SizeDefinition::nominal).flow.liters_per_minute() == 1.2 && required_sizes(1_L_per_min, 200, 400).size() == 2);
    const auto nozzle = Nozzle::rated("03", SizeDefinition::nominal).with_pressure_range(100, 400, "maker");
    MUST(near(nozzle.flow_at(Uncertain::exact(75, "kPa")).value("L/min"), 0.6) && nozzle.broken_limit(75) && !nozzle.broken_limit(200));
    const Uncertain table = Uncertain::exact(1.2_L_per_min);
    mixcalc_nozzle_check check = MIXCALC_NOZZLE_CHECK_INIT;
    check.rated = table.get();
    const CheckedSet set = check_nozzles(check, {{"1", {1.207, 1.21, 1.213}}, {"2", {1.342, 1.345, 1.348}, BoomSide::left}, {"3", {1.2, 1.203}}});
    MUST(set.nozzles.size() == 3 && set.nozzles[1].advice == MIXCALC_NOZZLE_REPLACE && !set.sides && !set.nozzles[1].rejected);
    MUST(thrown([&] { check_nozzles(check, {}); }).path() == "catches");
    MUST(repeats_needed(5_percent, 5_percent, 95_percent) == 7 && outlier({600, 604, 680, 602}, 5_percent).farthest == 2);
    MUST(best_repeats({{1_percent, 120_s}, {5_percent, 180_s}}, 1800_s) == (std::vector<std::uint64_t>{3, 8}));
    MUST(is_settled(flow, 10_percent, 95_percent) && !is_settled(flow, Ratio::from_percent(0.1), 95_percent));
    const Wear wear({{0, 1_L_per_min}, {10, 1.011_L_per_min}, {20, 1.019_L_per_min}, {30, 1.031_L_per_min}, {40, 1.039_L_per_min}});
    MUST(wear.at(0).second == 0_percent && wear.reaches(1.1_L_per_min, 95_percent)->latest_h < 125);
    MUST(!control_chart({1.2, 1.21, 1.2, 1.22, 1.21}).is_outside[4]);
    MUST(near(one_128th_acre().in("ft2"), 340.3125) && near(course_length(100_m2, 0.5_m).meters(), 200));

    const auto model = [&](Trial trial) { return trial.of(slow, "km/h"); };
    const Simulation one(10000, 1, "km/h", model), two(10000, 1, "km/h", model);
    MUST(one.mean("km/h") == two.mean("km/h") && std::fabs(one.median("km/h") - 8) < 0.01);
    try {
        Simulation(1000, 1, "m", [](Trial) -> double { throw std::logic_error("the model's own"); });
        MUST(!"what a model throws is thrown on");
    } catch (const std::logic_error &error) {
        MUST(std::string(error.what()) == "the model's own");
    }
    MUST(thrown([] { Simulation(1, 1, "m", [](Trial) { return 1.0; }); }).path() == "trials");
}

static void columns_are_those_of_c()
{
    const double areas[] = {12.4, 0, -1, 0, 0.4, 0}, rate = 200;
    double mix[3];
    std::uint16_t status[3];
    for (const std::size_t threads : {1, 2}) {
        MUST(columns::mix(columns::Column::same(rate), {areas, 2}, 3, mix, status, threads) == 1);
        MUST(mix[0] == (VolumeRate{200.0_L_per_ha} * 12.4_ha).liters() && std::isnan(mix[1]) && near(mix[2], 80));
        MUST(status[0] == 0 && status[1] == MIXCALC_STATUS_OUT_OF_RANGE && status[2] == 0);
    }
    const std::vector<columns::Column> inputs{columns::Column::same(rate), {areas, 2}};
    columns::explain("mix", inputs, 3, 0);
    MUST(thrown([&] { columns::explain("mix", inputs, 3, 1); }).path() == "area_ha[1]");
    MUST(thrown([&] { columns::mix({nullptr}, {areas, 2}, 3, mix, status); }).path() == "volume_rate_l_per_ha");
}

int main(int argc, char **argv)
{
    if (argc != 3)
        return 1;
    const auto read = [](const char *path) {
        std::size_t len = 0;
        char *text = contents(path, &len);
        const std::string job(text, len);
        std::free(text);
        return job;
    };
    sums_are_those_of_c();
    units_are_read_and_refused();
    calibration_is_that_of_c();
    columns_are_those_of_c();
    a_plan_gives_what_it_holds(read(argv[1]));
    a_stopped_plan_throws(read(argv[2]));
    MUST(thrown([] { Plan plan(std::string_view{}); }).code() == MIXCALC_STATUS_MISSING_INPUT);
    MUST(thrown([] { Plan plan("{\"format\": \"mixcalc-job/1\", \"aera\": \"1 ha\"}"); }).path() == "aera");
    MUST(version() == MIXCALC_VERSION && abi_version() == MIXCALC_ABI_VERSION);
    MUST(job_schema().substr(0, 1) == "{" && plan_schema().find("mixcalc-plan/1") != std::string_view::npos);
    std::puts("all promises hold");
    return 0;
}
