// Plans a job and prints what to measure, and checks the total by a sum of its own.
//
//     c++ -std=c++17 demo.cpp $(pkg-config --cflags --libs mixcalc) -o demo && ./demo ../../docs/examples/demo.toml
//
// Exits 0; 1 where a stop stands; 2 where there is no plan.

#include <mixcalc.hpp>

#include <fstream>
#include <iostream>
#include <iterator>

static std::ostream &operator<<(std::ostream &out, const mixcalc::Amount &amount)
{
    if (const auto *volume = std::get_if<mixcalc::Volume>(&amount))
        return out << volume->liters() << " L";
    return out << std::get<mixcalc::Mass>(amount).kilograms() << " kg";
}

int main(int argc, char **argv)
try {
    using namespace mixcalc::literals;
    std::ifstream file(argc == 2 ? argv[1] : "");
    const std::string job{std::istreambuf_iterator<char>(file), {}};
    const mixcalc::Plan plan(job);

    for (const auto &caution : plan.cautions())
        std::cout << "! " << caution.text << '\n';
    for (const auto &finding : plan.findings())
        std::cout << (finding.severity == mixcalc::Severity::stop ? "STOP: " : "- ") << finding.message << '\n';
    if (!plan.usable())
        return 1;

    for (std::size_t load = 0; load < plan.totals().load_entries; ++load) {
        const mixcalc::Load equal = plan.load(load);
        std::cout << "\nloads " << equal.first << " to " << equal.last << ": " << equal.mix.liters() << " L of mix each\n";
        for (const auto &amount : plan.measured_amounts(load))
            std::cout << "  " << amount.product << ": " << amount.measured << " in the " << amount.measure << '\n';
    }
    const mixcalc::Totals totals = plan.totals();
    std::cout << '\n' << totals.load_count << " loads, " << totals.mix.liters() << " L of mix\n";
    // A dose is no volume rate: `totals.volume_rate * totals.area` is mix, and a LiquidDose in its place would be product.
    const mixcalc::Volume without_strip = totals.volume_rate * totals.area;
    std::cout << (without_strip - totals.mix).liters() << " L less than without a last strip\n";
    std::cout << "at 1.2 L/min and 4 km/h over 1 m: "
              << mixcalc::volume_rate(1.2_L_per_min, 4_km_per_h, 1_m).liters_per_hectare() << " L/ha\n";
    return 0;
} catch (const mixcalc::Error &error) {
    std::cerr << error.what() << '\n';
    return 2;
}
