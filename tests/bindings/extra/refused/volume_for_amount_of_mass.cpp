// Graduations of a scale for a volume.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

std::uint64_t tried()
{
#ifdef WRONG
    return graduations(466_mL, 10_g, 500_mL); // says: no matching function for call to .graduations
#else
    return graduations(466_mL, 10_mL, 500_mL);
#endif
}
