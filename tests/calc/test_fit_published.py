"""The fit of life data, held against numbers that others have published."""

from __future__ import annotations

import math

import pytest

from quotes.calc.life.bounds import likelihood_bounds
from quotes.calc.life.fit import fit
from quotes.calc.life.life_data import LifeData

NIST = LifeData(failures=(54, 187, 216, 240, 244, 335, 361, 373, 375, 386), suspensions=(500,) * 10)
"""NIST/SEMATECH e-Handbook 8.4.1.3, data of 8.2.2.1; read."""
BALL_BEARINGS = LifeData(
    failures=(
        *(17.88, 28.92, 33.0, 41.52, 42.12, 45.6, 48.48, 51.84, 51.96, 54.12, 55.56, 67.8),
        *(68.64, 68.64, 68.88, 84.12, 93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.4),
    )
)
"""Lieblein and Zelen (1956), J. Res. NBS 57, 273-316: 23 deep-groove ball bearings, million revolutions."""
FANS = LifeData(
    failures=(450, 1150, 1150, 1600, 2070, 2070, 2080, 3100, 3450, 4600, 6100, 8750),
    suspensions=(
        *(460, 1560, 1660, *(1850,) * 5, *(2030,) * 3, 2200, *(3000,) * 4, 3200, 3750, 3750),
        *(*(4150,) * 4, *(4300,) * 4, *(4850,) * 4, *(5000,) * 3, *(6100,) * 3, 6300, 6450, 6450),
        *(6700, 7450, 7800, 7800, 8100, 8100, 8200, *(8500,) * 3, 8750, 8750, 9400, 9900),
        *(*(10100,) * 3, 11500),
    ),
)
"""Nelson, Applied Life Data Analysis (1982), pp. 133 and 317: 70 fans of diesel generators, hours."""
REMISSIONS = LifeData(
    failures=(6, 6, 6, 7, 10, 13, 16, 22, 23), suspensions=(6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
)
"""Freireich et al. (1963), the treated arm, weeks."""
CARS = LifeData(
    failures=(5248, 7454, 16890, 17200, 38700, 45000, 49390, 69040, 72280, 131900),
    suspensions=(
        *(3961, 4007, 4734, 6054, 7298, 10190, 23060, 27160, 28690, 37100, 40060, 45670, 53000),
        *(67000, 69630, 77350, 78470, 91680, 105700, 106300, 150400),
    ),
)
"""Krivtsov and Case (1999), SAE 1999-01-3220, kilometres."""
CARCINOMA = LifeData(
    failures=(143, 164, 188, 188, 190, 192, 206, 209, 213, 216, 220, 227, 230, 234, 246, 265, 304),
    suspensions=(216, 244),
)
"""Pike (1966), in Lawless (1982): days; read."""


def test_the_censored_test_of_the_handbook() -> None:
    """NIST/SEMATECH e-Handbook 8.4.1.3: 1.7208, 606.528; it prints 75.135 without the minus, AIC 154.27."""
    fitted = fit(NIST)
    assert fitted.beta == pytest.approx(1.7208, abs=5e-5)
    assert fitted.eta == pytest.approx(606.528, abs=0.005)
    assert fitted.log_likelihood == pytest.approx(-75.135, abs=5e-4)
    assert 2 * 2 - 2 * fitted.log_likelihood == pytest.approx(154.27, abs=0.005)


def test_the_mean_life_and_spread_of_the_handbook() -> None:
    """The same page: mean 540.737, standard deviation 323.806; read."""
    fitted = fit(NIST)
    mean, square = (math.gamma(1 + power / fitted.beta) for power in (1, 2))
    assert fitted.eta * mean == pytest.approx(540.737, abs=0.005)
    assert fitted.eta * math.sqrt(square - mean**2) == pytest.approx(323.806, abs=0.005)


@pytest.mark.parametrize(
    ("data", "beta", "beta_within", "eta", "eta_within"),
    [
        # Lawless (1982), Meeker and Escobar (1998): the shape read, the life from memory.
        pytest.param(BALL_BEARINGS, 2.102, 0.001, 81.88, 0.03, id="ball bearings"),
        # Nelson (1982): both from memory.
        pytest.param(FANS, 1.058, 0.001, 26_300, 30, id="fans"),
        # Lawless (1982): both from memory.
        pytest.param(REMISSIONS, 1.354, 0.0005, 33.77, 0.006, id="remissions"),
        # Computed with the `reliability` library, 0.9.0.
        pytest.param(CARS, 1.15443, 0.0001, 134_651.1, 5.0, id="cars"),
    ],
)
def test_the_fits_that_others_found(
    data: LifeData, beta: float, beta_within: float, eta: float, eta_within: float
) -> None:
    fitted = fit(data)
    assert fitted.beta == pytest.approx(beta, abs=beta_within)
    assert fitted.eta == pytest.approx(eta, abs=eta_within)


def test_the_bounds_of_a_worked_example_of_the_profile_likelihood() -> None:
    """Lawless's carcinoma data at 95 %, worked by the method of Venzon and Moolgavkar (1988); from memory."""
    bounds = likelihood_bounds(CARCINOMA, fit(CARCINOMA), 0.95)
    assert (bounds.beta_low, bounds.beta_high) == pytest.approx((4.1344, 8.3064), abs=1e-4)
    assert (bounds.eta_low, bounds.eta_high) == pytest.approx((215.1963, 255.2157), abs=1e-4)


def test_bounds_lie_near_those_from_the_curvature() -> None:
    """Fans at 95 %: 0.6441 to 1.7394 from the observed information (`reliability` 0.9.0).

    Another rule, whose bounds come to ours only with much data; with twelve failures they lie 6 % apart.
    """
    bounds = likelihood_bounds(FANS, fit(FANS), 0.95)
    assert (bounds.beta_low, bounds.beta_high) == pytest.approx((0.6441, 1.7394), rel=0.07)
