// Volume per volume and mass per volume, though both are per 100 L.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

auto tried()
{
#ifdef WRONG
    return 150_mL_per_100_L + 50_g_per_100_L; // says: no match for .operator\+
#else
    return 150_mL_per_100_L + 50_mL_per_100_L;
#endif
}
