"""Every table as it stands, in one step. A database that took all the steps replaced here has it already."""

import django.core.validators
import django.db.models.deletion
import django.db.models.expressions
import uuid
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    replaces = [
        ("catalogue", "0001_initial"),
        ("catalogue", "0002_life_change"),
        ("catalogue", "0003_load_laws"),
        ("catalogue", "0004_oil_by_use"),
    ]

    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Policy",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("value", models.JSONField()),
                ("currency", models.CharField(max_length=3)),
            ],
            options={
                "verbose_name_plural": "policies",
                "ordering": ["place", "code"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Source",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("title", models.CharField(max_length=200)),
                ("gives", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Basis",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("currency", models.CharField(max_length=3)),
                ("life_quantile_miles", models.FloatField()),
                ("life_quantile_hours_mx", models.FloatField()),
                ("life_quantile_source", models.TextField(blank=True, default="", max_length=2000)),
                ("evidence_r0", models.FloatField()),
                ("evidence_r0_source", models.TextField(blank=True, default="", max_length=2000)),
                ("stopping_share_session", models.FloatField()),
                ("stopping_share_weekend", models.FloatField()),
                ("stopping_share_engine", models.FloatField()),
                ("stopping_share_source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("evidence_r0__gt", 0), ("evidence_r0__isnull", True), _connector="OR"
                        ),
                        name="basis_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("life_quantile_miles__gte", 1e-06), ("life_quantile_miles__lte", 0.999999)
                            ),
                            ("life_quantile_miles__isnull", True),
                            _connector="OR",
                        ),
                        name="basis_life_quantile_miles_within",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("life_quantile_hours_mx__gte", 1e-06),
                                ("life_quantile_hours_mx__lte", 0.999999),
                            ),
                            ("life_quantile_hours_mx__isnull", True),
                            _connector="OR",
                        ),
                        name="basis_life_quantile_hours_mx_within",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("stopping_share_session__gte", 0), ("stopping_share_session__lte", 1)),
                            ("stopping_share_session__isnull", True),
                            _connector="OR",
                        ),
                        name="basis_stopping_share_session_within",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("stopping_share_weekend__gte", 0), ("stopping_share_weekend__lte", 1)),
                            ("stopping_share_weekend__isnull", True),
                            _connector="OR",
                        ),
                        name="basis_stopping_share_weekend_within",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("stopping_share_engine__gte", 0), ("stopping_share_engine__lte", 1)),
                            ("stopping_share_engine__isnull", True),
                            _connector="OR",
                        ),
                        name="basis_stopping_share_engine_within",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CatalogueVersion",
            fields=[
                (
                    "id",
                    models.PositiveSmallIntegerField(
                        default=1, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("number", models.PositiveIntegerField(default=0)),
                ("mark", models.CharField(default="", max_length=32)),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(condition=models.Q(("id", 1)), name="catalogue_version_is_one_row")
                ],
            },
        ),
        migrations.CreateModel(
            name="Component",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                ("group", models.CharField(max_length=64)),
                ("count", models.JSONField(default=dict)),
                (
                    "single_use",
                    models.CharField(
                        choices=[
                            ("yes", "always new once undone"),
                            ("no", "may be used again if it measures within limits"),
                            ("policy", "using it again is the workshop's choice"),
                        ],
                        max_length=10,
                    ),
                ),
                (
                    "consequence_class",
                    models.CharField(
                        choices=[
                            ("session", "stops the session"),
                            ("weekend", "ends the meeting"),
                            ("engine", "can wreck the engine"),
                        ],
                        max_length=10,
                    ),
                ),
                (
                    "judged_by",
                    models.CharField(
                        choices=[
                            ("life", "its life"),
                            ("measure", "what it measures"),
                            ("disturbed", "being disturbed"),
                        ],
                        max_length=10,
                    ),
                ),
                (
                    "judged_by_if_one_piece_roller_rod",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("life", "its life"),
                            ("measure", "what it measures"),
                            ("disturbed", "being disturbed"),
                        ],
                        default="",
                        max_length=10,
                    ),
                ),
                ("service_item", models.BooleanField(default=False)),
                ("life_source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "life_confidence",
                    models.CharField(
                        blank=True,
                        choices=[("", "not said"), ("low", "low"), ("medium", "medium"), ("high", "high")],
                        default="",
                        max_length=10,
                    ),
                ),
                ("drivers_inertia", models.FloatField(default=0)),
                ("drivers_gas", models.FloatField(default=0)),
                ("drivers_heat", models.FloatField(default=0)),
                ("drivers_shifts", models.FloatField(default=0)),
                ("drivers_launches", models.FloatField(default=0)),
                ("drivers_dirt", models.FloatField(default=0)),
                ("drivers_time", models.FloatField(default=0)),
                ("weibull_shape", models.FloatField()),
                ("stopping_share", models.FloatField(blank=True, null=True)),
                ("evidence_r0", models.FloatField(blank=True, null=True)),
                ("grade_strength", models.FloatField(blank=True, null=True)),
                ("rider_hazards", models.TextField(blank=True, default="", max_length=2000)),
                ("failure_modes", models.TextField(blank=True, default="", max_length=2000)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("sources", models.JSONField(blank=True, default=dict)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("single_use__in", ["yes", "no", "policy"])),
                        name="component_single_use_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("consequence_class__in", ["session", "weekend", "engine"])),
                        name="component_consequence_class_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("judged_by__in", ["life", "measure", "disturbed"])),
                        name="component_judged_by_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("life_confidence__in", ["", "low", "medium", "high"])),
                        name="component_life_confidence_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("weibull_shape__gt", 0), ("weibull_shape__isnull", True), _connector="OR"
                            ),
                            models.Q(("evidence_r0__gt", 0), ("evidence_r0__isnull", True), _connector="OR"),
                        ),
                        name="component_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("drivers_inertia__gte", 0),
                                ("drivers_inertia__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(("drivers_gas__gte", 0), ("drivers_gas__isnull", True), _connector="OR"),
                            models.Q(
                                ("drivers_heat__gte", 0), ("drivers_heat__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("drivers_shifts__gte", 0), ("drivers_shifts__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("drivers_launches__gte", 0),
                                ("drivers_launches__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("drivers_dirt__gte", 0), ("drivers_dirt__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("drivers_time__gte", 0), ("drivers_time__isnull", True), _connector="OR"
                            ),
                        ),
                        name="component_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("stopping_share__gte", 0), ("stopping_share__lte", 1)),
                            ("stopping_share__isnull", True),
                            _connector="OR",
                        ),
                        name="component_stopping_share_within",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("grade_strength__gte", 1), ("grade_strength__lte", 3)),
                            ("grade_strength__isnull", True),
                            _connector="OR",
                        ),
                        name="component_grade_strength_within",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "drivers_inertia__gt",
                                django.db.models.expressions.CombinedExpression(
                                    models.Value(0.999999),
                                    "-",
                                    django.db.models.expressions.CombinedExpression(
                                        django.db.models.expressions.CombinedExpression(
                                            django.db.models.expressions.CombinedExpression(
                                                django.db.models.expressions.CombinedExpression(
                                                    django.db.models.expressions.CombinedExpression(
                                                        models.F("drivers_gas"), "+", models.F("drivers_heat")
                                                    ),
                                                    "+",
                                                    models.F("drivers_shifts"),
                                                ),
                                                "+",
                                                models.F("drivers_launches"),
                                            ),
                                            "+",
                                            models.F("drivers_dirt"),
                                        ),
                                        "+",
                                        models.F("drivers_time"),
                                    ),
                                ),
                            ),
                            (
                                "drivers_inertia__lt",
                                django.db.models.expressions.CombinedExpression(
                                    models.Value(1.000001),
                                    "-",
                                    django.db.models.expressions.CombinedExpression(
                                        django.db.models.expressions.CombinedExpression(
                                            django.db.models.expressions.CombinedExpression(
                                                django.db.models.expressions.CombinedExpression(
                                                    django.db.models.expressions.CombinedExpression(
                                                        models.F("drivers_gas"), "+", models.F("drivers_heat")
                                                    ),
                                                    "+",
                                                    models.F("drivers_shifts"),
                                                ),
                                                "+",
                                                models.F("drivers_launches"),
                                            ),
                                            "+",
                                            models.F("drivers_dirt"),
                                        ),
                                        "+",
                                        models.F("drivers_time"),
                                    ),
                                ),
                            ),
                        ),
                        name="component_shares_add_up_to_one",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Duty",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                (
                    "basis",
                    models.CharField(
                        choices=[("miles", "track miles"), ("hours_mx", "motocross hours")], max_length=10
                    ),
                ),
                ("severity_inertia", models.FloatField()),
                ("severity_gas", models.FloatField()),
                ("severity_heat", models.FloatField()),
                ("severity_shifts", models.FloatField()),
                ("severity_launches", models.FloatField()),
                ("severity_dirt", models.FloatField()),
                ("severity_time", models.FloatField()),
                ("event_miles_typical", models.FloatField(blank=True, null=True)),
                ("event_miles_low", models.FloatField(blank=True, null=True)),
                ("event_miles_high", models.FloatField(blank=True, null=True)),
                ("event_hours_typical", models.FloatField()),
                ("event_hours_low", models.FloatField()),
                ("event_hours_high", models.FloatField()),
                ("event_runs", models.PositiveIntegerField(blank=True, null=True)),
                ("season_events", models.PositiveSmallIntegerField()),
                ("season_miles_typical", models.FloatField(blank=True, null=True)),
                ("season_miles_low", models.FloatField(blank=True, null=True)),
                ("season_miles_high", models.FloatField(blank=True, null=True)),
                ("season_hours_typical", models.FloatField()),
                ("season_hours_low", models.FloatField()),
                ("season_hours_high", models.FloatField()),
                ("season_runs", models.PositiveIntegerField(blank=True, null=True)),
                ("matters", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "oil_with_gearbox",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=40,
                        verbose_name="engine oil where the gearbox runs in it",
                    ),
                ),
                ("oil_with_gearbox_why", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "oil_without_gearbox",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=40,
                        verbose_name="engine oil where the gearbox has its own",
                    ),
                ),
                ("oil_without_gearbox_why", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "verbose_name_plural": "duties",
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("basis__in", ["miles", "hours_mx"])), name="duty_basis_known"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("severity_inertia__gte", 0),
                                ("severity_inertia__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("severity_gas__gte", 0), ("severity_gas__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("severity_heat__gte", 0), ("severity_heat__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("severity_shifts__gte", 0),
                                ("severity_shifts__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("severity_launches__gte", 0),
                                ("severity_launches__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("severity_dirt__gte", 0), ("severity_dirt__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("severity_time__gte", 0), ("severity_time__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("event_hours_low__gte", 0),
                                ("event_hours_low__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("season_hours_low__gte", 0),
                                ("season_hours_low__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="duty_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("season_events__gt", 0), ("season_events__isnull", True), _connector="OR"
                        ),
                        name="duty_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("event_miles_low__lte", models.F("event_miles_typical")),
                                ("event_miles_low__isnull", True),
                                ("event_miles_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("event_miles_typical__lte", models.F("event_miles_high")),
                                ("event_miles_typical__isnull", True),
                                ("event_miles_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="duty_event_miles_low_in_order",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("event_hours_low__lte", models.F("event_hours_typical")),
                                ("event_hours_low__isnull", True),
                                ("event_hours_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("event_hours_typical__lte", models.F("event_hours_high")),
                                ("event_hours_typical__isnull", True),
                                ("event_hours_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="duty_event_hours_low_in_order",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("season_miles_low__lte", models.F("season_miles_typical")),
                                ("season_miles_low__isnull", True),
                                ("season_miles_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("season_miles_typical__lte", models.F("season_miles_high")),
                                ("season_miles_typical__isnull", True),
                                ("season_miles_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="duty_season_miles_low_in_order",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("season_hours_low__lte", models.F("season_hours_typical")),
                                ("season_hours_low__isnull", True),
                                ("season_hours_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("season_hours_typical__lte", models.F("season_hours_high")),
                                ("season_hours_typical__isnull", True),
                                ("season_hours_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="duty_season_hours_low_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="EngineType",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                ("cylinders", models.PositiveSmallIntegerField()),
                ("valves_per_cylinder", models.PositiveSmallIntegerField()),
                ("bore_mm", models.FloatField(verbose_name="bore, mm")),
                ("stroke_mm", models.FloatField(verbose_name="stroke, mm")),
                ("displacement_cc", models.FloatField(verbose_name="displacement, cc")),
                ("compression_ratio", models.FloatField(verbose_name="compression ratio")),
                ("rev_limit_rpm", models.FloatField(verbose_name="rev limit")),
                ("power_rpm", models.FloatField(verbose_name="revs of peak power")),
                ("crank_power_hp", models.FloatField(verbose_name="power at the crank, hp")),
                ("rod_length_mm", models.FloatField(verbose_name="rod length, mm")),
                ("reciprocating_mass_g", models.FloatField(verbose_name="reciprocating mass a cylinder, g")),
                (
                    "block",
                    models.CharField(
                        choices=[
                            ("separate", "separate block"),
                            ("integral", "cylinders cast in the upper case"),
                        ],
                        max_length=20,
                    ),
                ),
                (
                    "case_split",
                    models.CharField(
                        choices=[("vertical", "cases part upright"), ("horizontal", "cases part level")],
                        max_length=20,
                        verbose_name="how the cases part",
                    ),
                ),
                (
                    "gearbox_access",
                    models.CharField(
                        choices=[("in_cases", "in the cases"), ("cassette", "a cassette")],
                        max_length=20,
                        verbose_name="way into the gearbox",
                    ),
                ),
                (
                    "gearbox_oil",
                    models.CharField(
                        choices=[("engine", "the engine's oil"), ("own", "oil of its own")],
                        default="engine",
                        max_length=20,
                        verbose_name="what the gearbox runs in",
                    ),
                ),
                (
                    "rod_type",
                    models.CharField(
                        choices=[
                            ("split_plain", "split rods on plain bearings"),
                            ("one_piece_roller", "one-piece rods on rollers, pressed-up crank"),
                        ],
                        max_length=20,
                        verbose_name="rods",
                    ),
                ),
                ("pieces", models.JSONField(default=dict)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                ("geometry_source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("cylinders__gt", 0), ("cylinders__isnull", True), _connector="OR"),
                            models.Q(
                                ("valves_per_cylinder__gt", 0),
                                ("valves_per_cylinder__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(("bore_mm__gt", 0), ("bore_mm__isnull", True), _connector="OR"),
                            models.Q(("stroke_mm__gt", 0), ("stroke_mm__isnull", True), _connector="OR"),
                            models.Q(
                                ("displacement_cc__gt", 0), ("displacement_cc__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("compression_ratio__gt", 0),
                                ("compression_ratio__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("rev_limit_rpm__gt", 0), ("rev_limit_rpm__isnull", True), _connector="OR"
                            ),
                            models.Q(("power_rpm__gt", 0), ("power_rpm__isnull", True), _connector="OR"),
                            models.Q(
                                ("crank_power_hp__gt", 0), ("crank_power_hp__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("rod_length_mm__gt", 0), ("rod_length_mm__isnull", True), _connector="OR"
                            ),
                            models.Q(
                                ("reciprocating_mass_g__gt", 0),
                                ("reciprocating_mass_g__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="engine_type_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("block__in", ["separate", "integral"])),
                        name="engine_type_block_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("case_split__in", ["vertical", "horizontal"])),
                        name="engine_type_case_split_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("gearbox_access__in", ["in_cases", "cassette"])),
                        name="engine_type_gearbox_access_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("gearbox_oil__in", ["engine", "own"])),
                        name="engine_type_gearbox_oil_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("rod_type__in", ["split_plain", "one_piece_roller"])),
                        name="engine_type_rod_type_known",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Fact",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("topic", models.CharField(max_length=200)),
                ("statement", models.TextField(blank=True, default="", max_length=2000)),
                ("values", models.JSONField(blank=True, default=dict)),
                ("formula", models.TextField(blank=True, default="", max_length=2000)),
                ("worked_example", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "confidence",
                    models.CharField(
                        blank=True,
                        choices=[("", "not said"), ("low", "low"), ("medium", "medium"), ("high", "high")],
                        default="",
                        max_length=10,
                    ),
                ),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("confidence__in", ["", "low", "medium", "high"])),
                        name="fact_confidence_known",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="LifeChange",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("component", models.CharField(max_length=64)),
                (
                    "basis",
                    models.CharField(
                        choices=[("miles", "track miles"), ("hours_mx", "motocross hours")], max_length=10
                    ),
                ),
                ("engine_type", models.CharField(blank=True, default="", max_length=64)),
                (
                    "rule",
                    models.CharField(
                        choices=[("learnt", "learnt"), ("likelihood", "likelihood")], max_length=10
                    ),
                ),
                ("low", models.FloatField()),
                ("typical", models.FloatField()),
                ("high", models.FloatField()),
                ("shape", models.FloatField()),
                ("evidence", models.FloatField()),
                ("was", models.JSONField()),
                ("data", models.JSONField()),
                ("counted", models.JSONField(default=list)),
                ("teardowns", models.JSONField(default=list)),
                ("reason", models.CharField(max_length=500)),
                ("at", models.DateTimeField()),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "rests_on",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="carries",
                        to="catalogue.lifechange",
                    ),
                ),
                (
                    "takes_back",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back",
                        to="catalogue.lifechange",
                    ),
                ),
            ],
            options={
                "ordering": ["-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("high__gte", models.F("typical")),
                            ("low__gt", 0),
                            ("typical__gte", models.F("low")),
                        ),
                        name="life_change_low_to_high",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("evidence__gt", 0), ("shape__gt", 0)),
                        name="life_change_has_a_law",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True), name="life_change_says_why"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="LoadLaw",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                ("exponent_typical", models.FloatField(verbose_name="power of the load")),
                ("exponent_low", models.FloatField()),
                ("exponent_high", models.FloatField()),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("code__in", ["inertia", "gas"])), name="load_law_code_known"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("exponent_low__gt", 0), ("exponent_low__isnull", True), _connector="OR"
                        ),
                        name="load_law_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("exponent_low__lte", models.F("exponent_typical")),
                                ("exponent_low__isnull", True),
                                ("exponent_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("exponent_typical__lte", models.F("exponent_high")),
                                ("exponent_typical__isnull", True),
                                ("exponent_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="load_law_exponent_low_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Operation",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("office", "office"),
                            ("strip", "strip"),
                            ("clean", "clean"),
                            ("inspect", "inspect"),
                            ("assemble", "assemble"),
                            ("test", "test"),
                        ],
                        max_length=10,
                    ),
                ),
                ("per_piece_piece", models.CharField(blank=True, default="", max_length=64)),
                (
                    "per_piece_hours",
                    models.DecimalField(blank=True, decimal_places=4, max_digits=8, null=True),
                ),
                ("records", models.TextField(blank=True, default="", max_length=2000)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("kind__in", ["office", "strip", "clean", "inspect", "assemble", "test"])
                        ),
                        name="operation_kind_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("per_piece_hours__gte", 0), ("per_piece_hours__isnull", True), _connector="OR"
                        ),
                        name="operation_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("per_piece_hours__isnull", True), ("per_piece_piece", "")),
                            models.Q(
                                models.Q(("per_piece_piece", ""), _negated=True),
                                ("per_piece_hours__isnull", False),
                            ),
                            _connector="OR",
                        ),
                        name="operation_piece_with_its_hours",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="OwnValue",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("kind", models.CharField(max_length=20)),
                ("entry", models.CharField(max_length=64)),
                ("field", models.CharField(max_length=64)),
                ("shipped", models.JSONField(null=True)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                ("at", models.DateTimeField()),
                (
                    "by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["kind", "entry", "field"],
                "constraints": [
                    models.UniqueConstraint(fields=("kind", "entry", "field"), name="own_value_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="Supplier",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                (
                    "kind",
                    models.CharField(
                        choices=[("parts", "parts"), ("machine_work", "machine work")], max_length=20
                    ),
                ),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["parts", "machine_work"])),
                        name="supplier_kind_known",
                    ),
                    models.UniqueConstraint(fields=("name",), name="supplier_name_once"),
                ],
            },
        ),
        migrations.CreateModel(
            name="Tier",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                ("rank", models.PositiveSmallIntegerField(unique=True)),
                ("purpose", models.TextField(blank=True, default="", max_length=2000)),
                ("promise", models.TextField(blank=True, default="", max_length=2000)),
                ("compression_delta", models.FloatField(verbose_name="compression, points up")),
                ("rev_limit_delta_pct", models.FloatField(verbose_name="rev limit, per cent up")),
                ("breaks_compression", models.BooleanField(default=False)),
                ("breaks_cams", models.BooleanField(default=False)),
                ("breaks_porting", models.BooleanField(default=False)),
                ("breaks_weight", models.BooleanField(default=False)),
                ("power_gain_pct_typical", models.FloatField()),
                ("power_gain_pct_low", models.FloatField()),
                ("power_gain_pct_high", models.FloatField()),
                ("power_note", models.TextField(blank=True, default="", max_length=2000)),
                ("power_source", models.TextField(blank=True, default="", max_length=2000)),
                ("opens_bottom_end", models.BooleanField(default=False)),
                (
                    "left_out_block",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("separate", "separate block"),
                            ("integral", "cylinders cast in the upper case"),
                        ],
                        default="",
                        max_length=20,
                    ),
                ),
                ("left_out_note", models.TextField(blank=True, default="", max_length=2000)),
                ("life_factors_inertia", models.FloatField(default=1)),
                ("life_factors_gas", models.FloatField(default=1)),
                ("life_factors_heat", models.FloatField(default=1)),
                ("life_factors_shifts", models.FloatField(default=1)),
                ("life_factors_launches", models.FloatField(default=1)),
                ("life_factors_dirt", models.FloatField(default=1)),
                ("life_factors_time", models.FloatField(default=1)),
                ("cost_multiple_typical", models.FloatField(blank=True, null=True)),
                ("cost_multiple_low", models.FloatField(blank=True, null=True)),
                ("cost_multiple_high", models.FloatField(blank=True, null=True)),
                ("cost_multiple_source", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("rank__lte", 2)), name="tier_rank_at_most_two"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("power_gain_pct_low__lte", models.F("power_gain_pct_typical")),
                                ("power_gain_pct_low__isnull", True),
                                ("power_gain_pct_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("power_gain_pct_typical__lte", models.F("power_gain_pct_high")),
                                ("power_gain_pct_typical__isnull", True),
                                ("power_gain_pct_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="tier_power_gain_pct_low_in_order",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("life_factors_inertia__gt", 0),
                                ("life_factors_inertia__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("life_factors_gas__gt", 0),
                                ("life_factors_gas__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("life_factors_heat__gt", 0),
                                ("life_factors_heat__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("life_factors_shifts__gt", 0),
                                ("life_factors_shifts__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("life_factors_launches__gt", 0),
                                ("life_factors_launches__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("life_factors_dirt__gt", 0),
                                ("life_factors_dirt__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("life_factors_time__gt", 0),
                                ("life_factors_time__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="tier_above_nought",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Change",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("kind", models.CharField(max_length=20)),
                ("entry", models.CharField(max_length=64)),
                ("version", models.PositiveIntegerField()),
                ("field", models.CharField(max_length=64)),
                ("was", models.JSONField(null=True)),
                ("became", models.JSONField(null=True)),
                ("at", models.DateTimeField()),
                (
                    "by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["kind", "entry", "version", "field"],
                "constraints": [
                    models.UniqueConstraint(fields=("kind", "entry", "version", "field"), name="change_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="MachineWork",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                (
                    "unit",
                    models.CharField(
                        choices=[
                            ("cylinder", "cylinder"),
                            ("valve", "valve"),
                            ("rod", "rod"),
                            ("gear_pair", "gear pair"),
                            ("head", "head"),
                            ("crank", "crank"),
                            ("engine", "engine"),
                        ],
                        max_length=20,
                    ),
                ),
                ("cost_typical", models.DecimalField(decimal_places=2, max_digits=12)),
                ("cost_low", models.DecimalField(decimal_places=2, max_digits=12)),
                ("cost_high", models.DecimalField(decimal_places=2, max_digits=12)),
                ("lead_typical_days", models.FloatField()),
                ("lead_slow_days", models.FloatField()),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "vendor",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="machine_work",
                        to="catalogue.supplier",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "machine work",
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("unit__in", ["cylinder", "valve", "rod", "gear_pair", "head", "crank", "engine"])
                        ),
                        name="machine_work_unit_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("cost_low__gte", 0), ("cost_low__isnull", True), _connector="OR"),
                        name="machine_work_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("cost_low__lte", models.F("cost_typical")),
                                ("cost_low__isnull", True),
                                ("cost_typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("cost_typical__lte", models.F("cost_high")),
                                ("cost_typical__isnull", True),
                                ("cost_high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="machine_work_cost_low_in_order",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("lead_typical_days__gt", 0), ("lead_typical_days__isnull", True), _connector="OR"
                        ),
                        name="machine_work_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("lead_typical_days__lte", models.F("lead_slow_days")),
                            ("lead_typical_days__isnull", True),
                            ("lead_slow_days__isnull", True),
                            _connector="OR",
                        ),
                        name="machine_work_lead_typical_days_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Finding",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200, verbose_name="what is seen")),
                (
                    "grade",
                    models.CharField(
                        choices=[
                            ("inspect", "look closer"),
                            ("renew", "renew"),
                            ("stop", "stop, tell the customer first"),
                        ],
                        max_length=10,
                    ),
                ),
                ("cause", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "only_rod_type",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("split_plain", "split rods on plain bearings"),
                            ("one_piece_roller", "one-piece rods on rollers, pressed-up crank"),
                        ],
                        default="",
                        max_length=20,
                    ),
                ),
                ("instead_for_roller_rod", models.BooleanField(default=False)),
                ("tell_customer", models.TextField(blank=True, default="", max_length=2000)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="findings",
                        to="catalogue.component",
                    ),
                ),
                (
                    "opens",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="opened_by",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("grade__in", ["inspect", "renew", "stop"])),
                        name="finding_grade_known",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Limit",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("quantity", models.CharField(max_length=200)),
                ("unit", models.CharField(max_length=200)),
                (
                    "bad_when",
                    models.CharField(
                        choices=[("above", "above the limit"), ("below", "below the limit")], max_length=10
                    ),
                ),
                ("basis", models.TextField(blank=True, default="", max_length=2000)),
                ("standard_low", models.FloatField()),
                ("standard_high", models.FloatField()),
                ("limit", models.FloatField()),
                ("watch", models.FloatField(blank=True, null=True)),
                (
                    "from_manual",
                    models.BooleanField(
                        default=False, verbose_name="from the maker's manual of the engine in hand"
                    ),
                ),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "alternative_to",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="alternatives",
                        to="catalogue.limit",
                    ),
                ),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="limits",
                        to="catalogue.component",
                    ),
                ),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("bad_when__in", ["above", "below"])), name="limit_bad_when_known"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("standard_low__lte", models.F("standard_high")),
                            ("standard_low__isnull", True),
                            ("standard_high__isnull", True),
                            _connector="OR",
                        ),
                        name="limit_standard_low_in_order",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("bad_when", "above"), ("limit__gte", models.F("standard_high"))),
                            models.Q(("bad_when", "below"), ("limit__lte", models.F("standard_low"))),
                            _connector="OR",
                        ),
                        name="limit_past_the_standard",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Measured",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("what", models.TextField(blank=True, default="", max_length=2000)),
                ("rule", models.TextField(blank=True, default="", max_length=2000)),
                ("limit", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="measured",
                        to="catalogue.component",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("component", "position"), name="measured_position_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="Consumption",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("quantity", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("as_measured", models.BooleanField(default=False)),
                (
                    "rule",
                    models.CharField(
                        choices=[("always", "always"), ("policy", "the workshop's choice")], max_length=10
                    ),
                ),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="consumed_by",
                        to="catalogue.component",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="consumes",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["operation", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("operation", "component"), name="consumption_once"),
                    models.CheckConstraint(
                        condition=models.Q(("rule__in", ["always", "policy"])), name="consumption_rule_known"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("quantity__gt", 0), ("quantity__isnull", True), _connector="OR"),
                        name="consumption_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("as_measured", False), ("quantity__isnull", True), _connector="OR"
                        ),
                        name="consumption_number_or_measured",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ComponentOperation",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("for_roller_rod", models.BooleanField(default=False)),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("access_operations", "reaches it"),
                            ("access_any_of", "one of the ways in"),
                            ("with_operations", "goes with renewing it"),
                            ("inspection_operations", "inspects it"),
                        ],
                        max_length=24,
                    ),
                ),
                ("way", models.PositiveSmallIntegerField(default=0)),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="ways",
                        to="catalogue.component",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reaches",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "for_roller_rod", "role", "way", "position"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("component", "for_roller_rod", "role", "way", "operation"), name="way_once"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "role__in",
                                [
                                    "access_operations",
                                    "access_any_of",
                                    "with_operations",
                                    "inspection_operations",
                                ],
                            )
                        ),
                        name="way_role_known",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="OperationComponent",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="operations",
                        to="catalogue.component",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="about",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["operation", "position"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("operation", "component"), name="operation_component_once"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="OperationHours",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("hours", models.DecimalField(decimal_places=4, max_digits=8)),
                (
                    "engine_type",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.enginetype",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="hours",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["operation", "engine_type"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("operation", "engine_type"), name="operation_hours_once_a_type"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("hours__gte", 0), ("hours__isnull", True), _connector="OR"),
                        name="operation_hours_not_negative",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="OperationLink",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("requires", "requires"),
                            ("requires_if", "requires, where it applies"),
                            ("after", "comes after"),
                            ("undo", "is undone by"),
                        ],
                        max_length=12,
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("condition", models.PositiveSmallIntegerField(default=0)),
                (
                    "attribute",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("block", "block"),
                            ("case_split", "how the cases part"),
                            ("gearbox_access", "way into the gearbox"),
                            ("rod_type", "rods"),
                            ("delivered", "how it was delivered"),
                        ],
                        default="",
                        max_length=20,
                    ),
                ),
                ("equals", models.CharField(blank=True, default="", max_length=64)),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="links",
                        to="catalogue.operation",
                    ),
                ),
                (
                    "other",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="linked_from",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["operation", "role", "position"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("operation", "role", "position"), name="operation_link_once"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("role__in", ["requires", "requires_if", "after", "undo"])),
                        name="operation_link_role_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("operation", models.F("other")), _negated=True),
                        name="operation_link_to_another",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("role", "requires_if"),
                                models.Q(("attribute", ""), _negated=True),
                                models.Q(("equals", ""), _negated=True),
                            ),
                            models.Q(
                                models.Q(("role", "requires_if"), _negated=True),
                                ("attribute", ""),
                                ("equals", ""),
                            ),
                            _connector="OR",
                        ),
                        name="operation_link_condition_where_asked",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Part",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                (
                    "grade",
                    models.CharField(
                        choices=[("stock", "stock"), ("performance", "performance")], max_length=20
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("unit", models.CharField(max_length=200)),
                ("quantity", models.PositiveSmallIntegerField()),
                ("list_price", models.DecimalField(decimal_places=2, max_digits=12)),
                ("range_low", models.FloatField()),
                ("range_high", models.FloatField()),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="parts",
                        to="catalogue.component",
                    ),
                ),
                (
                    "engine_type",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="parts",
                        to="catalogue.enginetype",
                    ),
                ),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.UniqueConstraint(
                        fields=("engine_type", "component", "grade"), name="part_once_a_grade"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("grade__in", ["stock", "performance"])), name="part_grade_known"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("list_price__gte", 0), ("list_price__isnull", True), _connector="OR"
                        ),
                        name="part_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("quantity__gt", 0), ("quantity__isnull", True), _connector="OR"),
                            models.Q(("range_low__gt", 0), ("range_low__isnull", True), _connector="OR"),
                        ),
                        name="part_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("range_high__gte", 1), ("range_low__lte", 1)),
                        name="part_range_around_one",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Reach",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("for_roller_rod", models.BooleanField(default=False)),
                ("machine_work_piece", models.CharField(blank=True, default="", max_length=64)),
                ("recondition_life_share", models.FloatField(blank=True, null=True)),
                ("recondition_max_times", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("recondition_quantity", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("recondition_source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="reaches",
                        to="catalogue.component",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "for_roller_rod"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("component", "for_roller_rod"), name="reach_once_a_rod_type"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("recondition_life_share__gt", 0),
                                ("recondition_life_share__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("recondition_max_times__gt", 0),
                                ("recondition_max_times__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("recondition_quantity__gt", 0),
                                ("recondition_quantity__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="reach_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("recondition_life_share__isnull", True),
                            ("recondition_life_share__lte", 1),
                            _connector="OR",
                        ),
                        name="reach_recondition_share_at_most_one",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TierChange",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("what", models.CharField(max_length=64)),
                ("text", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "engine_type",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.enginetype",
                    ),
                ),
                (
                    "tier",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="changes",
                        to="catalogue.tier",
                    ),
                ),
            ],
            options={
                "ordering": ["tier", "position"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("engine_type__isnull", True)),
                        fields=("tier", "what"),
                        name="tier_change_once",
                    ),
                    models.UniqueConstraint(
                        fields=("tier", "what", "engine_type"), name="tier_change_once_a_type"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TierComponent",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("renew", "renewed"),
                            ("renew_if_due", "renewed if due"),
                            ("recondition", "reconditioned"),
                            ("performance_grade", "in performance grade"),
                            ("left_out", "left in unless the cases are open"),
                        ],
                        max_length=20,
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="tiers",
                        to="catalogue.component",
                    ),
                ),
                (
                    "tier",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="components",
                        to="catalogue.tier",
                    ),
                ),
            ],
            options={
                "ordering": ["tier", "role", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("tier", "role", "component"), name="tier_component_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "role__in",
                                ["renew", "renew_if_due", "recondition", "performance_grade", "left_out"],
                            )
                        ),
                        name="tier_component_role_known",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TierOperation",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("only_separate_block", models.BooleanField(default=False)),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="tiers",
                        to="catalogue.operation",
                    ),
                ),
                (
                    "tier",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="operations",
                        to="catalogue.tier",
                    ),
                ),
            ],
            options={
                "ordering": ["tier", "only_separate_block", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("tier", "operation"), name="tier_operation_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="Companion",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("companions_on_renewal", "renewed with it"),
                            ("companions_on_damage", "looked at or renewed when it is found damaged"),
                            ("recondition_on_renewal", "reconditioned with it"),
                            ("comes_with", "part of the article bought"),
                            (
                                "comes_with_if_one_piece_roller_rod",
                                "part of the article bought, with a pressed-up crank",
                            ),
                        ],
                        max_length=40,
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="companions",
                        to="catalogue.component",
                    ),
                ),
                (
                    "other",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="companion_of",
                        to="catalogue.component",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "role", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("component", "role", "other"), name="companion_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "role__in",
                                [
                                    "companions_on_renewal",
                                    "companions_on_damage",
                                    "recondition_on_renewal",
                                    "comes_with",
                                    "comes_with_if_one_piece_roller_rod",
                                ],
                            )
                        ),
                        name="companion_role_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("component", models.F("other")), _negated=True),
                        name="companion_is_another",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ComponentLife",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "basis",
                    models.CharField(
                        choices=[("miles", "track miles"), ("hours_mx", "motocross hours")], max_length=10
                    ),
                ),
                ("typical", models.FloatField()),
                ("low", models.FloatField()),
                ("high", models.FloatField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="lives",
                        to="catalogue.component",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "-basis"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("component", "basis"), name="component_life_once_a_basis"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("basis__in", ["miles", "hours_mx"])),
                        name="component_life_basis_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("low__gt", 0), ("low__isnull", True), _connector="OR"),
                        name="component_life_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("low__lte", models.F("typical")),
                                ("low__isnull", True),
                                ("typical__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("typical__lte", models.F("high")),
                                ("typical__isnull", True),
                                ("high__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="component_life_low_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Event",
            fields=[
                (
                    "code",
                    models.CharField(
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                        validators=[
                            django.core.validators.RegexValidator(
                                "^[A-Za-z0-9_.\\-]+\\Z",
                                "A code is made of letters, digits, underscores, dots and hyphens.",
                            )
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("search_key", models.CharField(db_index=True, default="", editable=False, max_length=600)),
                ("place", models.PositiveIntegerField(default=0, editable=False)),
                ("name", models.CharField(max_length=200)),
                ("pct_over_low", models.FloatField(blank=True, null=True)),
                ("pct_over_high", models.FloatField(blank=True, null=True)),
                ("instead_for_roller_rod", models.BooleanField(default=False)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "same_as_finding",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="events",
                        to="catalogue.finding",
                    ),
                ),
            ],
            options={
                "ordering": ["place", "code"],
                "abstract": False,
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("pct_over_low__gte", 0), ("pct_over_low__isnull", True), _connector="OR"
                        ),
                        name="event_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("pct_over_low__lte", models.F("pct_over_high")),
                            ("pct_over_low__isnull", True),
                            ("pct_over_high__isnull", True),
                            _connector="OR",
                        ),
                        name="event_pct_over_low_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ComponentWork",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("for_roller_rod", models.BooleanField(default=False)),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("machine_work", "sent out when it is renewed"),
                            ("recondition", "in place of a new part"),
                        ],
                        max_length=24,
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="sent_out",
                        to="catalogue.component",
                    ),
                ),
                (
                    "machine_work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="for_components",
                        to="catalogue.machinework",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "for_roller_rod", "role", "position"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("component", "for_roller_rod", "role", "machine_work"),
                        name="component_work_once",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("role__in", ["machine_work", "recondition"])),
                        name="component_work_role_known",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="FindingAsks",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("any_of", "one of these is named"),
                            ("renew", "renewed"),
                            ("if_one_piece_roller_rod.renew", "renewed instead, with a pressed-up crank"),
                            ("inspect_operations", "looked at"),
                            ("inspect_if_hard_hit", "looked at after a hard hit"),
                            ("machine_work", "sent out"),
                            ("machine_work_if_needed", "sent out if the measurement asks for it"),
                            (
                                "if_one_piece_roller_rod.machine_work",
                                "sent out instead, with a pressed-up crank",
                            ),
                        ],
                        max_length=40,
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.component",
                    ),
                ),
                (
                    "finding",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="asks",
                        to="catalogue.finding",
                    ),
                ),
                (
                    "machine_work",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.machinework",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["finding", "role", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("finding", "role", "position"), name="finding_asks_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("component__isnull", False),
                                ("machine_work__isnull", True),
                                ("operation__isnull", True),
                            ),
                            models.Q(
                                ("component__isnull", True),
                                ("machine_work__isnull", True),
                                ("operation__isnull", False),
                            ),
                            models.Q(
                                ("component__isnull", True),
                                ("machine_work__isnull", False),
                                ("operation__isnull", True),
                            ),
                            _connector="OR",
                        ),
                        name="finding_asks_one_thing",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "role__in",
                                [
                                    "any_of",
                                    "renew",
                                    "if_one_piece_roller_rod.renew",
                                    "inspect_operations",
                                    "inspect_if_hard_hit",
                                    "machine_work",
                                    "machine_work_if_needed",
                                    "if_one_piece_roller_rod.machine_work",
                                ],
                            )
                        ),
                        name="finding_asks_role_known",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Offer",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("cost", models.DecimalField(decimal_places=2, max_digits=12)),
                ("pack", models.PositiveSmallIntegerField(default=1)),
                ("minimum_quantity", models.PositiveSmallIntegerField(default=1)),
                ("lead_typical_days", models.FloatField()),
                ("lead_slow_days", models.FloatField()),
                ("preferred", models.BooleanField(default=True)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("source", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "part",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="offers",
                        to="catalogue.part",
                    ),
                ),
                (
                    "supplier",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="offers",
                        to="catalogue.supplier",
                    ),
                ),
            ],
            options={
                "ordering": ["part", "-preferred", "cost", "supplier"],
                "constraints": [
                    models.UniqueConstraint(fields=("part", "supplier"), name="offer_once_a_supplier"),
                    models.UniqueConstraint(
                        condition=models.Q(("preferred", True)), fields=("part",), name="offer_one_preferred"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("cost__gte", 0), ("cost__isnull", True), _connector="OR"),
                        name="offer_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("pack__gt", 0), ("pack__isnull", True), _connector="OR"),
                            models.Q(
                                ("minimum_quantity__gt", 0),
                                ("minimum_quantity__isnull", True),
                                _connector="OR",
                            ),
                            models.Q(
                                ("lead_typical_days__gt", 0),
                                ("lead_typical_days__isnull", True),
                                _connector="OR",
                            ),
                        ),
                        name="offer_above_nought",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("lead_typical_days__lte", models.F("lead_slow_days")),
                            ("lead_typical_days__isnull", True),
                            ("lead_slow_days__isnull", True),
                            _connector="OR",
                        ),
                        name="offer_lead_typical_days_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TierWork",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("share", models.FloatField(default=1)),
                (
                    "only_rod_type",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("split_plain", "split rods on plain bearings"),
                            ("one_piece_roller", "one-piece rods on rollers, pressed-up crank"),
                        ],
                        default="",
                        max_length=20,
                    ),
                ),
                (
                    "machine_work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="tiers",
                        to="catalogue.machinework",
                    ),
                ),
                (
                    "tier",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="machine_work",
                        to="catalogue.tier",
                    ),
                ),
            ],
            options={
                "ordering": ["tier", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("tier", "machine_work"), name="tier_work_once"),
                    models.CheckConstraint(
                        condition=models.Q(("share__gt", 0), ("share__lte", 1)),
                        name="tier_work_share_above_nought",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="WorkComponent",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="machine_work",
                        to="catalogue.component",
                    ),
                ),
                (
                    "machine_work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="about",
                        to="catalogue.machinework",
                    ),
                ),
            ],
            options={
                "ordering": ["machine_work", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("machine_work", "component"), name="work_component_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="WorkNeeds",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "machine_work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="needs",
                        to="catalogue.machinework",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="machine_work",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["machine_work", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("machine_work", "operation"), name="work_needs_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="EventAsks",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("any_of", "one of these is named"),
                            ("renew", "renewed"),
                            ("if_one_piece_roller_rod.renew", "renewed instead, with a pressed-up crank"),
                            ("inspect_operations", "looked at"),
                            ("inspect_if_hard_hit", "looked at after a hard hit"),
                            ("machine_work", "sent out"),
                            ("machine_work_if_needed", "sent out if the measurement asks for it"),
                            (
                                "if_one_piece_roller_rod.machine_work",
                                "sent out instead, with a pressed-up crank",
                            ),
                        ],
                        max_length=40,
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                (
                    "component",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.component",
                    ),
                ),
                (
                    "event",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="asks", to="catalogue.event"
                    ),
                ),
                (
                    "machine_work",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.machinework",
                    ),
                ),
                (
                    "operation",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.operation",
                    ),
                ),
            ],
            options={
                "ordering": ["event", "role", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("event", "role", "position"), name="event_asks_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("component__isnull", False),
                                ("machine_work__isnull", True),
                                ("operation__isnull", True),
                            ),
                            models.Q(
                                ("component__isnull", True),
                                ("machine_work__isnull", True),
                                ("operation__isnull", False),
                            ),
                            models.Q(
                                ("component__isnull", True),
                                ("machine_work__isnull", False),
                                ("operation__isnull", True),
                            ),
                            _connector="OR",
                        ),
                        name="event_asks_one_thing",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "role__in",
                                [
                                    "any_of",
                                    "renew",
                                    "if_one_piece_roller_rod.renew",
                                    "inspect_operations",
                                    "inspect_if_hard_hit",
                                    "machine_work",
                                    "machine_work_if_needed",
                                    "if_one_piece_roller_rod.machine_work",
                                ],
                            )
                        ),
                        name="event_asks_role_known",
                    ),
                ],
            },
        ),
    ]
