"""Life data that others have published, as they were seen."""

from __future__ import annotations

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

TRUNCATED = LifeData(
    failures=(54.2, 49.9, 86.4, 42.7, 96.3, 63.0, 65.1, 45.3, 77.9),
    suspensions=(30.8, 76.7, 103.6, 78.6, 90.9),
    entries=(36.1, 0.0, 39.8, 0.0, 14.1, 0.0, 12.1, 12.0, 9.6, 0.0, 0.0, 33.2, 28.0, 0.0),
)
"""Made up: items that came under observation late."""
LOOKED_AT = LifeData(
    failures=(85.8, 41.4, 58.9, 56.2, 63.3, 23.3),
    suspensions=(21.3, 24.3, 10.7, 22.8),
    intervals=((20, 30), (60, 70), (70, 80), (20, 30), (30, 40), (20, 30)),
)
"""Made up: some failed between two looks."""
BOTH = LOOKED_AT.model_copy(
    update={
        "entries": (
            *(34.3, 16.6, 23.6, 22.5, 25.3, 9.3, 8.5, 9.7, 4.3, 9.1),
            *(8.0, 24.0, 28.0, 8.0, 12.0, 8.0),
        )
    }
)
