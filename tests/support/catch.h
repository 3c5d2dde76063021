// One include for Catch2, whichever of the two versions Debian ships.
#pragma once

#if __has_include(<catch2/catch_test_macros.hpp>)
#include <catch2/catch_approx.hpp>
#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <catch2/matchers/catch_matchers_string.hpp>
using Catch::Approx;
using Catch::Matchers::WithinAbs;
#else
#include <catch2/catch.hpp>
using Catch::WithinAbs;
#endif
