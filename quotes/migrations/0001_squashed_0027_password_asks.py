"""Every table as it stands, in one step. A database that took all the steps replaced here has it already."""

import django.core.validators
import django.db.models.deletion
import django.db.models.expressions
import django.db.models.functions.math
import uuid
from decimal import Decimal
from django.conf import settings
from django.db import migrations, models

from quotes.database.at_once import at_once


class Migration(migrations.Migration):
    replaces = [
        ("quotes", "0001_initial"),
        ("quotes", "0002_enquiry_booking"),
        ("quotes", "0003_frozen_rows"),
        ("quotes", "0004_quote_card_key"),
        ("quotes", "0005_booking_words"),
        ("quotes", "0006_acceptance_ready_on"),
        ("quotes", "0007_books"),
        ("quotes", "0008_books_frozen"),
        ("quotes", "0009_sums_in_floating_point"),
        ("quotes", "0010_tax_code_before"),
        ("quotes", "0011_one_batch"),
        ("quotes", "0012_bench"),
        ("quotes", "0013_bench_frozen"),
        ("quotes", "0014_strip_down"),
        ("quotes", "0015_declined_advice_alone"),
        ("quotes", "0016_lifed_parts_ran_before"),
        ("quotes", "0017_findings_report"),
        ("quotes", "0018_costs_back_in_work"),
        ("quotes", "0019_called_off"),
        ("quotes", "0020_bills_taken_back"),
        ("quotes", "0021_way_out"),
        ("quotes", "0022_lifed_parts_reconditioned"),
        ("quotes", "0023_tax_rates"),
        ("quotes", "0024_service_outcomes"),
        ("quotes", "0025_evidence_by_hand"),
        ("quotes", "0026_sign_ins"),
        ("quotes", "0027_password_asks"),
    ]

    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
        ("sessions", "0001_initial"),
    ]

    operations = at_once([
        migrations.CreateModel(
            name="BankColumns",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("heads_sha256", models.CharField(max_length=64, unique=True)),
                ("columns", models.JSONField()),
                ("used_at", models.DateTimeField()),
            ],
        ),
        migrations.CreateModel(
            name="BooksAccount",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("role", models.CharField(max_length=32, unique=True)),
                ("code", models.CharField(max_length=20)),
                ("name", models.CharField(max_length=80)),
            ],
            options={
                "ordering": ["code", "id"],
            },
        ),
        migrations.CreateModel(
            name="ClassRule",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code", models.SlugField(max_length=40, unique=True)),
                ("name", models.CharField(max_length=80)),
                ("allows_compression", models.BooleanField(default=False)),
                ("allows_cams", models.BooleanField(default=False)),
                ("allows_porting", models.BooleanField(default=False)),
                ("allows_weight", models.BooleanField(default=False)),
            ],
            options={
                "ordering": ["name", "id"],
            },
        ),
        migrations.CreateModel(
            name="Customer",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("address", models.TextField(blank=True, default="", max_length=400)),
                ("telephone", models.CharField(blank=True, default="", max_length=40)),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                ("tax_registration", models.CharField(blank=True, default="", max_length=40)),
                ("country", models.CharField(blank=True, default="", max_length=2)),
                ("search_key", models.CharField(db_index=True, editable=False, max_length=600)),
                ("created_at", models.DateTimeField()),
                ("version", models.PositiveIntegerField(default=1)),
            ],
            options={
                "ordering": ["name", "id"],
            },
        ),
        migrations.CreateModel(
            name="Instrument",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=120, unique=True)),
                ("unit", models.CharField(blank=True, default="", max_length=20)),
                ("checked_on", models.DateField(blank=True, null=True)),
                ("check_due_on", models.DateField(blank=True, null=True)),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                ("out_of_use", models.BooleanField(default=False)),
            ],
            options={
                "ordering": ["name"],
            },
        ),
        migrations.CreateModel(
            name="PasswordAsk",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("address", models.GenericIPAddressField(blank=True, db_index=True, null=True)),
                (
                    "mail_hash",
                    models.CharField(db_index=True, help_text="SHA-256 of what was typed", max_length=64),
                ),
                ("asked_at", models.DateTimeField()),
            ],
            options={
                "ordering": ["-asked_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="StoredFile",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("content_type", models.CharField(max_length=100)),
                ("sha256", models.CharField(max_length=64)),
                ("content", models.BinaryField()),
                ("made_at", models.DateTimeField()),
            ],
        ),
        migrations.CreateModel(
            name="TaxCode",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code", models.CharField(max_length=20, unique=True)),
                (
                    "category",
                    models.CharField(
                        choices=[
                            ("S", "S: standard rate"),
                            ("Z", "Z: zero rated"),
                            ("E", "E: exempt"),
                            ("AE", "AE: reverse charge"),
                            ("K", "K: within the union"),
                            ("G", "G: export"),
                            ("O", "O: outside the scope of tax"),
                        ],
                        default="S",
                        max_length=2,
                    ),
                ),
                ("reason", models.CharField(blank=True, default="", max_length=200)),
            ],
            options={
                "ordering": ["code"],
            },
        ),
        migrations.CreateModel(
            name="BookingTerms",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "spoken_round_to",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("100"),
                        max_digits=8,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.01")),
                            django.core.validators.MaxValueValidator(Decimal("10000")),
                        ],
                    ),
                ),
                (
                    "storage_free_days",
                    models.PositiveSmallIntegerField(
                        default=14, validators=[django.core.validators.MaxValueValidator(365)]
                    ),
                ),
                (
                    "storage_a_day",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("10"),
                        max_digits=8,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                (
                    "storage",
                    models.TextField(
                        default="Goods that nobody collects are sold only by the procedure of local law.",
                        max_length=2000,
                    ),
                ),
                (
                    "bring",
                    models.TextField(
                        default="Engine number\nKey, where the engine comes in the chassis\nLogbook of hours or distance\nSpare shims",
                        max_length=2000,
                    ),
                ),
                (
                    "kept_inside_days",
                    models.PositiveSmallIntegerField(
                        default=30, validators=[django.core.validators.MaxValueValidator(365)]
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(condition=models.Q(("id", 1)), name="booking_terms_is_one_row")
                ],
            },
        ),
        migrations.CreateModel(
            name="BooksSettings",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("country", models.CharField(blank=True, default="", max_length=2)),
                ("account_name", models.CharField(blank=True, default="", max_length=70)),
                ("iban", models.CharField(blank=True, default="", max_length=34)),
                ("bic", models.CharField(blank=True, default="", max_length=11)),
                (
                    "payment_days",
                    models.PositiveSmallIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(365)]
                    ),
                ),
                (
                    "payment_words",
                    models.CharField(default="Before the engine leaves the workshop", max_length=200),
                ),
                (
                    "deposit_by",
                    models.CharField(
                        choices=[
                            ("invoice", "deposit invoice, with tax"),
                            ("receipt", "receipt, without tax"),
                        ],
                        default="invoice",
                        max_length=8,
                    ),
                ),
                (
                    "series",
                    models.CharField(
                        choices=[
                            ("kind-and-year", "one for each kind and year: I-2026-0001"),
                            ("kind", "one for each kind, through the years: I-00001"),
                        ],
                        default="kind-and-year",
                        max_length=16,
                    ),
                ),
                (
                    "labour_by",
                    models.CharField(
                        choices=[("quoted", "the hours quoted"), ("clocked", "the hours clocked")],
                        default="quoted",
                        max_length=8,
                    ),
                ),
                (
                    "late_pct_a_year",
                    models.DecimalField(
                        decimal_places=3,
                        default=Decimal("0"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                (
                    "late_after_days",
                    models.PositiveSmallIntegerField(
                        default=14, validators=[django.core.validators.MaxValueValidator(365)]
                    ),
                ),
                (
                    "labour_cost_an_hour",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("0"),
                        max_digits=8,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("10000")),
                        ],
                    ),
                ),
                (
                    "years_kept",
                    models.PositiveSmallIntegerField(
                        default=10,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(50),
                        ],
                    ),
                ),
                ("version", models.PositiveIntegerField(default=0)),
                ("changed_at", models.DateTimeField(blank=True, null=True)),
                ("changed_by", models.CharField(blank=True, default="", max_length=150)),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(condition=models.Q(("id", 1)), name="books_settings_is_one_row")
                ],
            },
        ),
        migrations.CreateModel(
            name="ClosedDay",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("first", models.DateField()),
                ("last", models.DateField()),
                ("note", models.CharField(blank=True, default="", max_length=80)),
            ],
            options={
                "ordering": ["first", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("last__gte", models.F("first"))),
                        name="closed_days_end_after_they_begin",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Counter",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("kind", models.CharField(max_length=16)),
                ("year", models.PositiveSmallIntegerField()),
                ("value", models.PositiveIntegerField(default=0)),
            ],
            options={
                "constraints": [models.UniqueConstraint(fields=("kind", "year"), name="counter_once_a_year")],
            },
        ),
        migrations.CreateModel(
            name="CustomerFile",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("sha256", models.CharField(max_length=64)),
                ("content", models.BinaryField()),
                ("checked_at", models.DateTimeField()),
                ("applied_at", models.DateTimeField(blank=True, null=True)),
                ("added_customers", models.PositiveIntegerField(default=0)),
                ("added_engines", models.PositiveIntegerField(default=0)),
                ("added_segments", models.PositiveIntegerField(default=0)),
                (
                    "checked_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["-checked_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="LabourRate",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("office", "office"),
                            ("strip", "strip"),
                            ("clean", "clean"),
                            ("inspect", "measure and inspect"),
                            ("assemble", "assemble"),
                            ("test", "test and dyno"),
                        ],
                        max_length=8,
                        unique=True,
                    ),
                ),
                (
                    "per_hour",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=8,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("10000")),
                        ],
                    ),
                ),
            ],
            options={
                "ordering": ["id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("per_hour__gte", 0)), name="labour_rate_not_negative"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="ManualLimit",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("type_code", models.CharField(max_length=64)),
                ("limit_code", models.CharField(max_length=64)),
                ("standard_low", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                (
                    "standard_high",
                    models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True),
                ),
                ("limit", models.DecimalField(decimal_places=6, max_digits=16)),
                ("watch", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("manual", models.CharField(max_length=200)),
                ("page", models.CharField(blank=True, default="", max_length=40)),
                ("entered_at", models.DateTimeField()),
                ("until", models.DateTimeField(blank=True, null=True)),
                ("until_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "entered_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["type_code", "limit_code", "-entered_at"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("until", None)),
                        fields=("type_code", "limit_code"),
                        name="manual_limit_stands_once",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("manual", ""), _negated=True),
                        name="manual_limit_names_its_manual",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="MarkupBand",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "cost_from",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=10,
                        unique=True,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                (
                    "markup_pct",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("1000")),
                        ],
                    ),
                ),
            ],
            options={
                "ordering": ["cost_from"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("cost_from__gte", 0), ("markup_pct__gte", 0)),
                        name="markup_not_negative",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="MonthLock",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("month", models.DateField()),
                ("locked_at", models.DateTimeField()),
                ("locked_by", models.CharField(max_length=150)),
                ("opened_at", models.DateTimeField(blank=True, null=True)),
                ("opened_by", models.CharField(blank=True, default="", max_length=150)),
                ("opened_because", models.CharField(blank=True, default="", max_length=300)),
            ],
            options={
                "ordering": ["-month", "-id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("opened_at", None)), fields=("month",), name="month_locked_once"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="RunningInRule",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("type_code", models.CharField(max_length=64, unique=True)),
                ("manual", models.CharField(blank=True, default="", max_length=200)),
                ("page", models.CharField(blank=True, default="", max_length=40)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("rev_limit_pct", models.PositiveSmallIntegerField()),
                ("revs_until", models.DecimalField(decimal_places=2, max_digits=12)),
                ("oil_at", models.DecimalField(decimal_places=2, max_digits=12)),
                ("recheck_at", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                ("words", models.CharField(blank=True, default="", max_length=1000)),
            ],
            options={
                "ordering": ["type_code"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("rev_limit_pct__gte", 20), ("rev_limit_pct__lte", 100)),
                        name="running_in_revs_are_a_share",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("oil_at__gte", 0), ("revs_until__gte", 0)),
                        name="running_in_not_negative",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ShopFactorChange",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("before", models.DecimalField(decimal_places=3, max_digits=5)),
                (
                    "after",
                    models.DecimalField(
                        decimal_places=3,
                        max_digits=5,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.1")),
                            django.core.validators.MaxValueValidator(Decimal("10")),
                        ],
                    ),
                ),
                ("reason", models.CharField(max_length=500)),
                ("record", models.JSONField(blank=True, default=dict)),
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
                    "takes_back",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back_by",
                        to="quotes.shopfactorchange",
                    ),
                ),
            ],
            options={
                "ordering": ["-at", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="shop_factor_changed_for_a_reason",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("after__gte", Decimal("0.1")), ("after__lte", 10)),
                        name="shop_factor_in_its_limits",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="SignIn",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("browser", models.CharField(blank=True, default="", max_length=255)),
                ("address", models.GenericIPAddressField(blank=True, null=True)),
                ("since", models.DateTimeField()),
                (
                    "last_used",
                    models.DateTimeField(help_text="written once in some minutes, not at every page"),
                ),
                (
                    "session",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="sign_in",
                        to="sessions.session",
                    ),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="sign_ins",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["-last_used", "-id"],
            },
        ),
        migrations.CreateModel(
            name="SlotDeposit",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("type_code", models.CharField(max_length=64, unique=True)),
                (
                    "amount",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=12,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
            ],
            options={
                "ordering": ["type_code"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("amount__gte", 0)), name="slot_deposit_not_negative"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="SupplierBill",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=24, unique=True)),
                ("supplier", models.CharField(max_length=120)),
                ("supplier_number", models.CharField(max_length=60)),
                ("on", models.DateField(db_index=True)),
                ("due_on", models.DateField(blank=True, null=True)),
                ("net", models.DecimalField(decimal_places=3, max_digits=16)),
                ("tax", models.DecimalField(decimal_places=3, max_digits=16)),
                ("gross", models.DecimalField(decimal_places=3, max_digits=16)),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                ("entered_at", models.DateTimeField()),
                ("taken_back_at", models.DateTimeField(blank=True, null=True)),
                (
                    "entered_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "reverses",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reversed_by",
                        to="quotes.supplierbill",
                    ),
                ),
            ],
            options={
                "ordering": ["-on", "-id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("reverses", None), ("taken_back_at", None)),
                        fields=("supplier", "supplier_number"),
                        name="supplier_bill_entered_once",
                        violation_error_message="A bill of that supplier with that number stands in the books.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "gross",
                                django.db.models.functions.math.Round(
                                    django.db.models.expressions.CombinedExpression(
                                        models.F("net"), "+", models.F("tax")
                                    ),
                                    precision=3,
                                ),
                            )
                        ),
                        name="supplier_bill_net_and_tax_are_gross",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TeardownPrice",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("type_code", models.CharField(max_length=64, unique=True)),
                (
                    "price",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=12,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("9999999.99")),
                        ],
                    ),
                ),
                (
                    "put_back_price",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=12,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("9999999.99")),
                        ],
                    ),
                ),
                (
                    "deposit",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=12,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("9999999.99")),
                        ],
                    ),
                ),
            ],
            options={
                "ordering": ["type_code"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("deposit__gte", 0), ("price__gte", 0), ("put_back_price__gte", 0)
                        ),
                        name="teardown_prices_not_negative",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="BankFile",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("sha256", models.CharField(max_length=64, unique=True)),
                ("reading", models.JSONField(blank=True, default=dict)),
                ("kept_at", models.DateTimeField()),
                (
                    "kept_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "content",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="quotes.storedfile"
                    ),
                ),
            ],
            options={
                "ordering": ["-kept_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="Engine",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("type_code", models.CharField(max_length=64)),
                ("number", models.CharField(blank=True, default="", max_length=60)),
                (
                    "delivered",
                    models.CharField(
                        choices=[("loose", "loose"), ("in_chassis", "in the chassis")],
                        default="loose",
                        max_length=10,
                    ),
                ),
                ("fitted", models.CharField(blank=True, default="", max_length=64)),
                ("history_known", models.BooleanField(default=False)),
                ("build_cycles", models.JSONField(blank=True, default=dict)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                ("search_key", models.CharField(db_index=True, editable=False, max_length=200)),
                ("version", models.PositiveIntegerField(default=1)),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="engines",
                        to="quotes.customer",
                    ),
                ),
            ],
            options={
                "ordering": ["number", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("number", ""), _negated=True),
                        fields=("customer", "type_code", "number"),
                        name="engine_number_once_a_customer",
                        violation_error_message="This customer already has an engine of this type and number.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="ExportBatch",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=24, unique=True)),
                ("first", models.DateField(blank=True, null=True)),
                ("last", models.DateField(blank=True, null=True)),
                ("made_at", models.DateTimeField()),
                (
                    "state",
                    models.CharField(
                        choices=[("waiting", "being made"), ("ready", "ready"), ("failed", "failed")],
                        default="waiting",
                        max_length=8,
                    ),
                ),
                ("entries_held", models.PositiveIntegerField()),
                ("lines_held", models.PositiveIntegerField()),
                ("lines_done", models.PositiveIntegerField(default=0)),
                ("failed_because", models.CharField(blank=True, default="", max_length=300)),
                ("controls", models.JSONField(blank=True, default=dict)),
                ("ready_at", models.DateTimeField(blank=True, null=True)),
                (
                    "made_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "csv",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
                (
                    "workbook",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-made_at", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("state", "ready"), _negated=True),
                            models.Q(("csv__isnull", False), ("workbook__isnull", False)),
                            _connector="OR",
                        ),
                        name="export_batch_ready_has_files",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="LifedPart",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("component", models.CharField(max_length=64)),
                ("type_code", models.CharField(max_length=64)),
                ("serial", models.CharField(max_length=80)),
                ("grade", models.CharField(blank=True, default="", max_length=20)),
                ("ran_before", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                (
                    "ran_before_unit",
                    models.CharField(
                        blank=True,
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        default="",
                        max_length=4,
                    ),
                ),
                ("ran_before_duty", models.CharField(blank=True, default="", max_length=64)),
                ("note", models.CharField(blank=True, default="", max_length=500)),
                ("scrapped_on", models.DateField(blank=True, null=True)),
                (
                    "owner",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="lifed_parts",
                        to="quotes.customer",
                    ),
                ),
            ],
            options={
                "ordering": ["component", "serial"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("component", "type_code", "serial"), name="lifed_part_once"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ran_before", None),
                            ("ran_before", 0),
                            models.Q(
                                ("ran_before__gt", 0),
                                models.Q(("ran_before_unit", ""), _negated=True),
                                models.Q(("ran_before_duty", ""), _negated=True),
                            ),
                            _connector="OR",
                        ),
                        name="lifed_part_ran_before_in_a_unit",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PurchaseOrder",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=20, unique=True)),
                ("supplier", models.CharField(max_length=64)),
                ("supplier_name", models.CharField(max_length=200)),
                ("needed_on", models.DateField(blank=True, null=True)),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("ordered_on", models.DateField(db_index=True)),
                ("ordered_at", models.DateTimeField()),
                (
                    "ordered_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "csv",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-ordered_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="BillPayment",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("on", models.DateField()),
                (
                    "method",
                    models.CharField(
                        choices=[
                            ("cash", "cash"),
                            ("card", "card"),
                            ("transfer", "bank transfer"),
                            ("cheque", "cheque"),
                        ],
                        max_length=8,
                    ),
                ),
                ("paid_at", models.DateTimeField()),
                (
                    "paid_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "bill",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="payment",
                        to="quotes.supplierbill",
                    ),
                ),
            ],
            options={
                "ordering": ["-on", "-id"],
            },
        ),
        migrations.CreateModel(
            name="TaxComponent",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("order", models.PositiveSmallIntegerField()),
                ("name", models.CharField(max_length=60)),
                (
                    "rate_pct",
                    models.DecimalField(
                        decimal_places=4,
                        max_digits=7,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                (
                    "tax_code",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="components",
                        to="quotes.taxcode",
                    ),
                ),
            ],
            options={
                "ordering": ["order", "id"],
                "constraints": [
                    models.UniqueConstraint(fields=("tax_code", "order"), name="tax_component_order_once"),
                    models.CheckConstraint(
                        condition=models.Q(("rate_pct__gte", 0)), name="tax_rate_not_negative"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TaxRate",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("valid_from", models.DateField()),
                (
                    "category",
                    models.CharField(
                        choices=[
                            ("S", "S: standard rate"),
                            ("Z", "Z: zero rated"),
                            ("E", "E: exempt"),
                            ("AE", "AE: reverse charge"),
                            ("K", "K: within the union"),
                            ("G", "G: export"),
                            ("O", "O: outside the scope of tax"),
                        ],
                        max_length=2,
                    ),
                ),
                ("reason", models.CharField(blank=True, default="", max_length=200)),
                ("components", models.JSONField(blank=True, default=list)),
                (
                    "tax_code",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="rates", to="quotes.taxcode"
                    ),
                ),
            ],
            options={
                "ordering": ["valid_from"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("tax_code", "valid_from"),
                        name="tax_rate_begins_once",
                        violation_error_message="A rate of that tax code begins on that day already.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Workshop",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(blank=True, default="", max_length=120)),
                ("address", models.TextField(blank=True, default="", max_length=400)),
                ("telephone", models.CharField(blank=True, default="", max_length=40)),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                ("tax_registration", models.CharField(blank=True, default="", max_length=40)),
                ("currency", models.CharField(default="USD", max_length=3)),
                (
                    "tax_style",
                    models.CharField(
                        choices=[
                            ("sales-tax", "sales tax: parts taxed, labour by local rule"),
                            ("value-added-tax", "value added tax"),
                        ],
                        default="sales-tax",
                        max_length=16,
                    ),
                ),
                ("prices_include_tax_in_talk", models.BooleanField(default=True)),
                ("cap_at_list", models.BooleanField(default=True)),
                (
                    "machine_work_markup_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("15"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("200")),
                        ],
                    ),
                ),
                (
                    "consumables_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("4"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                (
                    "consumables_least",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("12"),
                        max_digits=12,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                (
                    "consumables_most",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("60"),
                        max_digits=12,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                ("renew_policy_parts", models.BooleanField(default=False)),
                (
                    "fault_cost",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("1500"),
                        help_text="from memory, the owner's to set",
                        max_digits=12,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                (
                    "deposit_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("50"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                (
                    "quote_validity_days",
                    models.PositiveSmallIntegerField(
                        default=30,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(365),
                        ],
                    ),
                ),
                (
                    "limit_without_asking_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("10"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                (
                    "hours_spread_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("25"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                (
                    "spoken_below_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("10"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("50")),
                        ],
                    ),
                ),
                (
                    "spoken_above_pct",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("20"),
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("100")),
                        ],
                    ),
                ),
                ("terms", models.TextField(blank=True, default="", max_length=20000)),
                (
                    "paper",
                    models.CharField(
                        choices=[("A4", "A4"), ("Letter", "Letter")], default="Letter", max_length=6
                    ),
                ),
                (
                    "bench_hours_a_day",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("6.5"),
                        help_text="builder hours that can be sold, a working day",
                        max_digits=5,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.5")),
                            django.core.validators.MaxValueValidator(Decimal("200")),
                        ],
                    ),
                ),
                (
                    "sellable_hours_a_week",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("32.5"),
                        help_text="about 0.65 of the hours present, from memory",
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.5")),
                            django.core.validators.MaxValueValidator(Decimal("1000")),
                        ],
                    ),
                ),
                ("calendar_country", models.CharField(blank=True, default="", max_length=2)),
                ("calendar_region", models.CharField(blank=True, default="", max_length=8)),
                (
                    "distance_unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres")], default="mi", max_length=2
                    ),
                ),
                (
                    "shop_factor",
                    models.DecimalField(
                        decimal_places=3,
                        default=Decimal("1"),
                        help_text="scales every hazard to the workshop's own record",
                        max_digits=5,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.1")),
                            django.core.validators.MaxValueValidator(Decimal("10")),
                        ],
                    ),
                ),
                (
                    "assembly_fault_chance",
                    models.DecimalField(
                        decimal_places=5,
                        default=Decimal("0.0005"),
                        help_text="per assembly operation, from memory",
                        max_digits=7,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0")),
                            django.core.validators.MaxValueValidator(Decimal("0.05")),
                        ],
                    ),
                ),
                (
                    "rider_safety_ceiling",
                    models.DecimalField(
                        decimal_places=4,
                        default=Decimal("0.05"),
                        max_digits=5,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.001")),
                            django.core.validators.MaxValueValidator(Decimal("0.5")),
                        ],
                    ),
                ),
                (
                    "chance_floor",
                    models.DecimalField(
                        decimal_places=3,
                        default=Decimal("0.90"),
                        max_digits=4,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.5")),
                            django.core.validators.MaxValueValidator(Decimal("0.999")),
                        ],
                    ),
                ),
                ("refuses_unsafe", models.BooleanField(default=False)),
                (
                    "session_loss",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("150"),
                        help_text="what a lost session costs the customer, from memory",
                        max_digits=12,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                (
                    "weekend_loss",
                    models.DecimalField(
                        decimal_places=2,
                        default=Decimal("800"),
                        help_text="what a lost weekend costs him: entry, travel, nights; from memory",
                        max_digits=12,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                    ),
                ),
                (
                    "demo_style",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("sales-tax", "sales tax: parts taxed, labour by local rule"),
                            ("value-added-tax", "value added tax"),
                        ],
                        default="",
                        max_length=16,
                    ),
                ),
                ("version", models.PositiveIntegerField(default=0)),
                ("changed_at", models.DateTimeField(blank=True, null=True)),
                ("changed_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "tax_on_consumables",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.taxcode",
                    ),
                ),
                (
                    "tax_on_labour",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.taxcode",
                    ),
                ),
                (
                    "tax_on_machine_work",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.taxcode",
                    ),
                ),
                (
                    "tax_on_parts",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.taxcode",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(condition=models.Q(("id", 1)), name="workshop_is_one_row")
                ],
            },
        ),
        migrations.CreateModel(
            name="WriteOff",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=24, unique=True)),
                ("on", models.DateField()),
                ("amount", models.DecimalField(decimal_places=3, max_digits=16)),
                ("reason", models.CharField(max_length=300)),
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
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="write_offs",
                        to="quotes.customer",
                    ),
                ),
            ],
            options={
                "ordering": ["-on", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("amount__gt", 0)), name="write_off_above_nought"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True), name="write_off_has_reason"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Quote",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(blank=True, default=None, max_length=20, null=True, unique=True)),
                ("request", models.JSONField()),
                ("version", models.PositiveIntegerField(default=1)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "search_key",
                    models.CharField(blank=True, db_index=True, default="", editable=False, max_length=60),
                ),
                ("card_key", models.UUIDField(default=None, editable=False, null=True, unique=True)),
                ("created_at", models.DateTimeField(db_index=True)),
                ("edited_at", models.DateTimeField()),
                ("edited_by", models.CharField(blank=True, default="", max_length=150)),
                ("confirmed_at", models.DateTimeField(blank=True, null=True)),
                ("asked_at", models.DateTimeField(blank=True, null=True)),
                ("accepted_at", models.DateTimeField(blank=True, null=True)),
                ("declined_at", models.DateTimeField(blank=True, null=True)),
                ("closed_at", models.DateTimeField(blank=True, null=True)),
                (
                    "created_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="quotes",
                        to="quotes.customer",
                    ),
                ),
                (
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="quotes", to="quotes.engine"
                    ),
                ),
            ],
            options={
                "ordering": ["-created_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="Reminder",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("due_on", models.DateField(blank=True, null=True)),
                ("words", models.TextField(max_length=4000)),
                ("sent_on", models.DateField()),
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
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reminders",
                        to="quotes.engine",
                    ),
                ),
            ],
            options={
                "ordering": ["-sent_on", "-id"],
            },
        ),
        migrations.CreateModel(
            name="RenewedPart",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("component", models.CharField(max_length=64)),
                ("at", models.DecimalField(decimal_places=2, max_digits=12)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("on", models.DateField(blank=True, null=True)),
                (
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="renewed_parts",
                        to="quotes.engine",
                    ),
                ),
            ],
            options={
                "ordering": ["component"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("engine", "component"), name="renewed_part_once_an_engine"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("at__gte", 0)), name="renewed_at_not_negative"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Segment",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("order", models.PositiveSmallIntegerField()),
                ("amount", models.DecimalField(decimal_places=2, max_digits=12)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("duty", models.CharField(max_length=64)),
                ("tier", models.CharField(default="refresh", max_length=64)),
                ("start", models.DateField(blank=True, null=True)),
                ("end", models.DateField(blank=True, null=True)),
                (
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="segments",
                        to="quotes.engine",
                    ),
                ),
            ],
            options={
                "ordering": ["order", "id"],
                "constraints": [
                    models.UniqueConstraint(fields=("engine", "order"), name="segment_order_once"),
                    models.CheckConstraint(
                        condition=models.Q(("amount__gte", 0)), name="segment_amount_not_negative"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("start", None), ("end", None), ("end__gte", models.F("start")), _connector="OR"
                        ),
                        name="segment_ends_after_it_begins",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Enquiry",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=20, unique=True)),
                ("request", models.JSONField()),
                ("said", models.JSONField()),
                ("caller", models.CharField(blank=True, default="", max_length=200)),
                ("needed_on", models.DateField(blank=True, null=True)),
                ("budget", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                ("who_pays", models.CharField(blank=True, default="", max_length=200)),
                ("symptoms", models.TextField(blank=True, default="", max_length=2000)),
                ("fuel", models.CharField(blank=True, default="", max_length=80)),
                ("class_rules", models.CharField(blank=True, default="", max_length=200)),
                ("note", models.TextField(blank=True, default="", max_length=2000)),
                (
                    "search_key",
                    models.CharField(blank=True, db_index=True, default="", editable=False, max_length=300),
                ),
                ("kept_at", models.DateTimeField(db_index=True)),
                ("dropped_at", models.DateTimeField(blank=True, null=True)),
                ("dropped_because", models.CharField(blank=True, default="", max_length=300)),
                ("version", models.PositiveIntegerField(default=1)),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="enquiries",
                        to="quotes.customer",
                    ),
                ),
                (
                    "engine",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="enquiries",
                        to="quotes.engine",
                    ),
                ),
                (
                    "kept_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="enquiry",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "enquiries",
                "ordering": ["-kept_at", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("budget", None), ("budget__gt", 0), _connector="OR"),
                        name="enquiry_budget_positive",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Revision",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("index", models.PositiveSmallIntegerField()),
                ("request", models.JSONField()),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("issued_at", models.DateTimeField()),
                ("valid_until", models.DateField()),
                ("class_tick", models.BooleanField(default=False)),
                ("gross_from", models.DecimalField(decimal_places=2, max_digits=14)),
                ("gross_to", models.DecimalField(decimal_places=2, max_digits=14)),
                (
                    "issued_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="revisions",
                        to="quotes.quote",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
                (
                    "workbook",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["quote", "index"],
                "constraints": [
                    models.UniqueConstraint(fields=("quote", "index"), name="revision_index_once"),
                    models.CheckConstraint(
                        condition=models.Q(("index__gte", 1)), name="revision_counts_from_one"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("gross_to__gte", models.F("gross_from"))),
                        name="revision_sums_in_order",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Acceptance",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("tier", models.CharField(max_length=64)),
                ("tier_name", models.CharField(max_length=120)),
                ("extras", models.JSONField(blank=True, default=list)),
                ("name", models.CharField(max_length=200)),
                ("right", models.CharField(blank=True, default="", max_length=200)),
                ("telephone", models.CharField(blank=True, default="", max_length=40)),
                ("limit_pct", models.DecimalField(decimal_places=2, max_digits=6)),
                ("limit_sum", models.DecimalField(decimal_places=2, max_digits=14)),
                ("gross", models.DecimalField(decimal_places=2, max_digits=14)),
                ("deposit", models.DecimalField(decimal_places=2, max_digits=14)),
                ("hours", models.DecimalField(decimal_places=2, max_digits=8)),
                ("ready_on", models.DateField(blank=True, default=None, null=True)),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("agreed_terms", models.BooleanField()),
                ("rider_safety_read", models.BooleanField(default=False)),
                ("accepted_at", models.DateTimeField()),
                ("done_at", models.DateTimeField(blank=True, null=True)),
                ("done_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "quote",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="acceptance",
                        to="quotes.quote",
                    ),
                ),
                (
                    "revision",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="acceptance",
                        to="quotes.revision",
                    ),
                ),
                (
                    "receipt",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-accepted_at", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("agreed_terms", True)), name="acceptance_agrees_to_terms"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("gross__gte", 0), ("limit_sum__gte", 0)),
                        name="acceptance_sums_not_negative",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Booking",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=20, unique=True)),
                ("tier", models.CharField(max_length=64)),
                ("tier_name", models.CharField(max_length=120)),
                ("hours", models.DecimalField(decimal_places=2, max_digits=8)),
                ("slot_week", models.DateField(db_index=True)),
                ("arrive_by", models.DateField()),
                (
                    "delivered",
                    models.CharField(
                        choices=[("loose", "loose"), ("in_chassis", "in the chassis")], max_length=10
                    ),
                ),
                ("deposit", models.DecimalField(decimal_places=2, max_digits=12)),
                (
                    "authority",
                    models.CharField(
                        choices=[("rider", "the rider"), ("team", "the team"), ("payer", "who pays")],
                        max_length=8,
                    ),
                ),
                ("authority_name", models.CharField(max_length=200)),
                (
                    "said_how",
                    models.CharField(
                        choices=[
                            ("signature", "by signature"),
                            ("message", "by written message"),
                            ("telephone", "by telephone, written down by us"),
                        ],
                        max_length=10,
                    ),
                ),
                ("limit_sum", models.DecimalField(decimal_places=2, max_digits=12)),
                (
                    "old_parts",
                    models.CharField(
                        choices=[
                            ("returned", "go back to the customer with the engine"),
                            ("kept", "are kept until the engine is fetched, then disposed of"),
                            ("scrapped", "are disposed of at once"),
                        ],
                        max_length=10,
                    ),
                ),
                ("sheet", models.JSONField()),
                ("terms_agreed_on", models.DateField(blank=True, null=True)),
                ("terms_agreed_by", models.CharField(blank=True, default="", max_length=200)),
                ("booked_at", models.DateTimeField()),
                ("cancelled_at", models.DateTimeField(blank=True, null=True)),
                ("cancelled_by", models.CharField(blank=True, default="", max_length=150)),
                ("cancelled_because", models.CharField(blank=True, default="", max_length=300)),
                (
                    "booked_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "enquiry",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="bookings",
                        to="quotes.enquiry",
                    ),
                ),
            ],
            options={
                "ordering": ["booked_at", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("cancelled_at", None)),
                        fields=("enquiry",),
                        name="booking_stands_once_an_enquiry",
                    ),
                    models.CheckConstraint(condition=models.Q(("hours__gt", 0)), name="booking_has_hours"),
                    models.CheckConstraint(
                        condition=models.Q(("deposit__gte", 0), ("limit_sum__gte", 0)),
                        name="booking_sums_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("terms_agreed_by", ""), ("terms_agreed_on", None)),
                            models.Q(
                                ("terms_agreed_on__isnull", False),
                                models.Q(("terms_agreed_by", ""), _negated=True),
                            ),
                            _connector="OR",
                        ),
                        name="booking_terms_agreed_by_somebody",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Reply",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[("question", "question"), ("decline", "decline")], max_length=8
                    ),
                ),
                ("text", models.TextField(blank=True, default="", max_length=4000)),
                ("name", models.CharField(blank=True, default="", max_length=200)),
                ("at", models.DateTimeField()),
                ("answer", models.TextField(blank=True, default="", max_length=4000)),
                ("answered_at", models.DateTimeField(blank=True, null=True)),
                ("answered_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "revision",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="replies",
                        to="quotes.revision",
                    ),
                ),
            ],
            options={
                "ordering": ["-at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="Link",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("token_hash", models.CharField(max_length=64, unique=True)),
                ("created_at", models.DateTimeField()),
                ("created_by", models.CharField(blank=True, default="", max_length=150)),
                ("expires_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_at", models.DateTimeField(blank=True, null=True)),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="links", to="quotes.quote"
                    ),
                ),
                (
                    "revision",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="links",
                        to="quotes.revision",
                    ),
                ),
            ],
            options={
                "ordering": ["-created_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="InvoiceDraft",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("deposit_invoice", "deposit invoice"),
                            ("invoice", "invoice"),
                            ("credit_note", "credit note"),
                        ],
                        max_length=16,
                    ),
                ),
                ("content", models.JSONField()),
                ("supplied_on", models.DateField(blank=True, null=True)),
                ("version", models.PositiveIntegerField(default=1)),
                ("started_at", models.DateTimeField()),
                ("edited_by", models.CharField(blank=True, default="", max_length=150)),
                ("edited_at", models.DateTimeField()),
                ("dropped_at", models.DateTimeField(blank=True, null=True)),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="invoice_drafts",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="invoice_drafts",
                        to="quotes.customer",
                    ),
                ),
                (
                    "started_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["-started_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="Job",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("number", models.CharField(max_length=20, unique=True)),
                ("received_at", models.DateTimeField(db_index=True)),
                ("brought_by", models.CharField(max_length=200)),
                ("right_to_hand_over", models.CharField(blank=True, default="", max_length=200)),
                (
                    "delivered",
                    models.CharField(
                        choices=[("loose", "loose"), ("in_chassis", "in the chassis")],
                        default="loose",
                        max_length=10,
                    ),
                ),
                ("shelf", models.CharField(blank=True, default="", max_length=40)),
                ("tag", models.CharField(blank=True, default="", max_length=40)),
                ("marks", models.JSONField(blank=True, default=list)),
                ("came_with", models.JSONField(blank=True, default=list)),
                ("missing", models.CharField(blank=True, default="", max_length=500)),
                ("oil_seen", models.CharField(blank=True, default="", max_length=300)),
                ("symptoms", models.CharField(blank=True, default="", max_length=1000)),
                ("duty", models.CharField(blank=True, default="", max_length=64)),
                ("use_note", models.CharField(blank=True, default="", max_length=500)),
                (
                    "service_amount",
                    models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True),
                ),
                (
                    "service_unit",
                    models.CharField(
                        blank=True,
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        default="",
                        max_length=4,
                    ),
                ),
                (
                    "service_known",
                    models.CharField(
                        choices=[
                            ("meter", "read from a meter"),
                            ("logbook", "from a logbook"),
                            ("said", "said by the customer"),
                            ("guess", "a guess"),
                            ("unknown", "not known"),
                        ],
                        default="unknown",
                        max_length=8,
                    ),
                ),
                ("step", models.CharField(db_index=True, default="received", max_length=20)),
                ("hold_because", models.CharField(blank=True, default="", max_length=300)),
                ("left_at", models.DateTimeField(blank=True, db_index=True, null=True)),
                ("version", models.PositiveIntegerField(default=1)),
                (
                    "booking",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="job",
                        to="quotes.booking",
                    ),
                ),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="jobs", to="quotes.customer"
                    ),
                ),
                (
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="jobs", to="quotes.engine"
                    ),
                ),
                (
                    "received_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="job",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "ordering": ["-received_at", "-id"],
            },
        ),
        migrations.CreateModel(
            name="OwnPart",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("component", models.CharField(max_length=64)),
                ("description", models.CharField(max_length=300)),
                ("quantity", models.DecimalField(decimal_places=3, max_digits=10)),
                ("received_on", models.DateField()),
                ("condition", models.CharField(blank=True, default="", max_length=300)),
                ("fit_to_use", models.BooleanField()),
                ("at", models.DateTimeField()),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="own_parts",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["received_on", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("quantity__gt", 0)), name="own_part_of_something"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="StockUse",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("description", models.CharField(max_length=200)),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("quantity", models.DecimalField(decimal_places=3, max_digits=10)),
                ("cost", models.DecimalField(decimal_places=3, max_digits=16)),
                ("on", models.DateField()),
                ("at", models.DateTimeField()),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="stock_used",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("quantity", 0), _negated=True), name="stock_use_of_something"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="BillLine",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("order", models.PositiveSmallIntegerField()),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("part", "parts"),
                            ("machine_work", "machine work"),
                            ("freight", "freight"),
                            ("stock", "parts for stock"),
                            ("overhead", "overheads"),
                        ],
                        max_length=16,
                    ),
                ),
                ("description", models.CharField(max_length=200)),
                ("net", models.DecimalField(decimal_places=3, max_digits=16)),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="bill_lines",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "bill",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="lines",
                        to="quotes.supplierbill",
                    ),
                ),
            ],
            options={
                "ordering": ["bill", "order"],
                "constraints": [
                    models.UniqueConstraint(fields=("bill", "order"), name="bill_line_order_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("build", None),
                            models.Q(("kind__in", ["stock", "overhead"]), _negated=True),
                            _connector="OR",
                        ),
                        name="bill_line_of_build_is_for_it",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CalledOff",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("reason", models.CharField(max_length=300)),
                ("said_by", models.CharField(max_length=200)),
                ("on", models.DateField()),
                ("at", models.DateTimeField()),
                (
                    "build",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="called_off",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("reason", ""), _negated=True), models.Q(("said_by", ""), _negated=True)
                        ),
                        name="called_off_with_a_reason",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Core",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("description", models.CharField(max_length=300)),
                ("supplier", models.CharField(max_length=64)),
                ("deposit", models.DecimalField(decimal_places=3, max_digits=16)),
                ("opened_on", models.DateField()),
                ("due_back_on", models.DateField(db_index=True)),
                (
                    "state",
                    models.CharField(
                        choices=[
                            ("here", "with us"),
                            ("sent", "sent back"),
                            ("refunded", "refunded"),
                            ("refused", "refused"),
                        ],
                        default="here",
                        max_length=8,
                    ),
                ),
                ("sent_on", models.DateField(blank=True, null=True)),
                ("settled_on", models.DateField(blank=True, null=True)),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                ("changed_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="cores",
                        to="quotes.acceptance",
                    ),
                ),
            ],
            options={
                "ordering": ["due_back_on", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("deposit__gte", 0)), name="core_deposit_not_negative"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Invoice",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("deposit_invoice", "deposit invoice"),
                            ("invoice", "invoice"),
                            ("credit_note", "credit note"),
                        ],
                        max_length=16,
                    ),
                ),
                ("number", models.CharField(max_length=24, unique=True)),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("issued_on", models.DateField(db_index=True)),
                ("issued_at", models.DateTimeField()),
                ("due_on", models.DateField(blank=True, null=True)),
                ("currency", models.CharField(max_length=3)),
                ("net", models.DecimalField(decimal_places=3, max_digits=16)),
                ("tax", models.DecimalField(decimal_places=3, max_digits=16)),
                ("gross", models.DecimalField(decimal_places=3, max_digits=16)),
                ("prepaid", models.DecimalField(decimal_places=3, max_digits=16)),
                ("due", models.DecimalField(decimal_places=3, max_digits=16)),
                ("consent", models.CharField(blank=True, default="", max_length=300)),
                (
                    "search_key",
                    models.CharField(blank=True, db_index=True, default="", editable=False, max_length=60),
                ),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="invoices",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="invoices",
                        to="quotes.customer",
                    ),
                ),
                (
                    "issued_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "original",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="credit_notes",
                        to="quotes.invoice",
                    ),
                ),
                (
                    "draft",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="invoice",
                        to="quotes.invoicedraft",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="quotes.storedfile"
                    ),
                ),
                (
                    "xml",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-issued_at", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "gross",
                                django.db.models.functions.math.Round(
                                    django.db.models.expressions.CombinedExpression(
                                        models.F("net"), "+", models.F("tax")
                                    ),
                                    precision=3,
                                ),
                            )
                        ),
                        name="invoice_net_and_tax_are_gross",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("kind", "credit_note"), ("original__isnull", False)),
                            models.Q(models.Q(("kind", "credit_note"), _negated=True), ("original", None)),
                            _connector="OR",
                        ),
                        name="invoice_credit_note_has_original",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("number", ""), _negated=True), name="invoice_has_number"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="FindingSeen",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("finding_code", models.CharField(blank=True, default="", max_length=64)),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("place", models.CharField(blank=True, default="", max_length=80)),
                ("words", models.CharField(blank=True, default="", max_length=500)),
                ("cause", models.CharField(blank=True, default="", max_length=500)),
                ("consequence", models.CharField(blank=True, default="", max_length=500)),
                (
                    "judged",
                    models.CharField(
                        choices=[
                            ("serviceable", "serviceable"),
                            ("until", "serviceable until"),
                            ("renew", "renew now"),
                            ("companions", "renew, and look at its companions"),
                            ("stop", "stop: talk to the customer"),
                        ],
                        max_length=12,
                    ),
                ),
                ("until_amount", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                (
                    "until_unit",
                    models.CharField(
                        blank=True,
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        default="",
                        max_length=4,
                    ),
                ),
                ("pct_over", models.DecimalField(blank=True, decimal_places=2, max_digits=6, null=True)),
                ("seen_at", models.DateTimeField()),
                ("withdrawn_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_by", models.CharField(blank=True, default="", max_length=150)),
                ("withdrawn_because", models.CharField(blank=True, default="", max_length=300)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="findings", to="quotes.job"
                    ),
                ),
            ],
            options={
                "ordering": ["seen_at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("finding_code", ""), _negated=True),
                            models.Q(("words", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="finding_seen_says_something",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="FinalCheck",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("answers", models.JSONField(default=list)),
                ("asked", models.JSONField(blank=True, default=dict)),
                ("done", models.JSONField(blank=True, default=list)),
                ("rings", models.CharField(blank=True, default="", max_length=20)),
                ("bore", models.CharField(blank=True, default="", max_length=20)),
                ("note", models.CharField(blank=True, default="", max_length=500)),
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
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="final_checks",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
            },
        ),
        migrations.CreateModel(
            name="FailureReport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("component", models.CharField(max_length=64)),
                ("place", models.CharField(blank=True, default="", max_length=80)),
                ("words", models.CharField(max_length=1000)),
                (
                    "outcome",
                    models.CharField(
                        choices=[
                            ("failed", "failed"),
                            ("sound", "still sound"),
                            ("past_limit", "found past its limit"),
                        ],
                        max_length=10,
                    ),
                ),
                ("amount", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                (
                    "unit",
                    models.CharField(
                        blank=True,
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        default="",
                        max_length=4,
                    ),
                ),
                ("opened_elsewhere", models.BooleanField(default=False)),
                ("seal_whole", models.BooleanField(blank=True, null=True)),
                ("evidence", models.CharField(blank=True, default="", max_length=1000)),
                (
                    "who_pays",
                    models.CharField(
                        choices=[
                            ("workmanship", "our workmanship"),
                            ("part", "the part, by its maker's warranty"),
                            ("misuse", "use outside what was agreed"),
                            ("life", "life used up"),
                            ("unknown", "not known"),
                        ],
                        max_length=12,
                    ),
                ),
                ("shop_share_pct", models.DecimalField(decimal_places=2, max_digits=6)),
                ("settlement", models.CharField(blank=True, default="", max_length=500)),
                ("on", models.DateField()),
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
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="failures",
                        to="quotes.engine",
                    ),
                ),
                (
                    "comeback_job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="comes_from",
                        to="quotes.job",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="failures",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["-on", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("shop_share_pct__gte", 0), ("shop_share_pct__lte", 100)),
                        name="failure_share_is_a_share",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="DeclinedAdvice",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("words", models.CharField(max_length=300)),
                ("risk", models.CharField(blank=True, default="", max_length=500)),
                ("rider_safety", models.BooleanField(default=False)),
                ("said_by", models.CharField(max_length=200)),
                ("how", models.CharField(max_length=200)),
                ("at", models.DateTimeField()),
                ("written_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="declined", to="quotes.job"
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("said_by", ""), _negated=True), name="declined_advice_by_somebody"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Concession",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("requirement", models.CharField(max_length=120)),
                ("place", models.CharField(blank=True, default="", max_length=80)),
                ("words", models.CharField(max_length=500)),
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
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="concessions",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("words", ""), _negated=True), name="concession_says_why"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="AssemblyEntry",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("requirement", models.CharField(max_length=120)),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("operation", models.CharField(blank=True, default="", max_length=64)),
                ("name", models.CharField(max_length=200)),
                ("place", models.CharField(blank=True, default="", max_length=80)),
                ("entered", models.CharField(blank=True, default="", max_length=200)),
                ("entered_unit", models.CharField(blank=True, default="", max_length=20)),
                ("value", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("unit", models.CharField(blank=True, default="", max_length=60)),
                ("low", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("high", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("limit_source", models.CharField(blank=True, default="", max_length=200)),
                ("within", models.BooleanField(blank=True, null=True)),
                ("part_number", models.CharField(blank=True, default="", max_length=64)),
                ("batch", models.CharField(blank=True, default="", max_length=80)),
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
                    "corrects",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="corrected_by",
                        to="quotes.assemblyentry",
                    ),
                ),
                (
                    "instrument",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.instrument",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="assembly", to="quotes.job"
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
            },
        ),
        migrations.CreateModel(
            name="JobStep",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "step",
                    models.CharField(
                        choices=[
                            ("received", "received"),
                            ("leave_given", "leave to strip given"),
                            ("stripped", "stripped and measured"),
                            ("findings", "findings issued"),
                            ("assembling", "assembling"),
                            ("testing", "testing"),
                            ("ready", "ready"),
                            ("released", "released"),
                            ("sent_back", "sent back as it was agreed"),
                            ("on_hold", "on hold"),
                            ("goes_on", "goes on"),
                        ],
                        max_length=20,
                    ),
                ),
                ("at", models.DateTimeField()),
                ("note", models.CharField(blank=True, default="", max_length=500)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="steps", to="quotes.job"
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(
                            ("step__in", ("on_hold", "goes_on", "assembling", "testing")), _negated=True
                        ),
                        fields=("job", "step"),
                        name="job_step_once",
                    )
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
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "when",
                    models.CharField(
                        choices=[
                            ("as_received", "as received"),
                            ("stripped", "at the teardown"),
                            ("machined", "back from machine work"),
                        ],
                        default="stripped",
                        max_length=12,
                    ),
                ),
                ("component", models.CharField(max_length=64)),
                ("quantity", models.CharField(blank=True, default="", max_length=64)),
                ("name", models.CharField(max_length=200)),
                ("place", models.CharField(blank=True, default="", max_length=80)),
                ("entered", models.CharField(max_length=24)),
                ("entered_unit", models.CharField(max_length=20)),
                ("value", models.DecimalField(decimal_places=6, max_digits=16)),
                ("unit", models.CharField(max_length=60)),
                ("standard_low", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                (
                    "standard_high",
                    models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True),
                ),
                ("limit", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("watch", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("bad_when", models.CharField(blank=True, default="", max_length=10)),
                ("limit_source", models.CharField(blank=True, default="", max_length=200)),
                (
                    "verdict",
                    models.CharField(
                        choices=[
                            ("within", "within limits"),
                            ("watch", "near its limit"),
                            ("past", "past its limit"),
                            ("no_limit", "no limit known"),
                        ],
                        max_length=10,
                    ),
                ),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                ("measured_at", models.DateTimeField()),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "corrects",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="corrected_by",
                        to="quotes.measured",
                    ),
                ),
                (
                    "instrument",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.instrument",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="readings", to="quotes.job"
                    ),
                ),
            ],
            options={
                "ordering": ["measured_at", "id"],
            },
        ),
        migrations.CreateModel(
            name="PartStay",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("from_on", models.DateField()),
                ("from_amount", models.DecimalField(decimal_places=2, max_digits=12)),
                ("until_on", models.DateField(blank=True, null=True)),
                ("until_amount", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                ("fitted_by", models.CharField(blank=True, default="", max_length=150)),
                ("taken_out_by", models.CharField(blank=True, default="", max_length=150)),
                ("reconditioned_on", models.DateField(blank=True, null=True)),
                ("counts_for", models.DecimalField(blank=True, decimal_places=4, max_digits=5, null=True)),
                (
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="part_stays",
                        to="quotes.engine",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="part_stays",
                        to="quotes.job",
                    ),
                ),
                (
                    "part",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="stays",
                        to="quotes.lifedpart",
                    ),
                ),
            ],
            options={
                "ordering": ["from_on", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("until_on", None)),
                        fields=("part",),
                        name="lifed_part_in_one_engine",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("until_amount", None),
                            ("until_amount__gte", models.F("from_amount")),
                            _connector="OR",
                        ),
                        name="part_stay_does_not_run_back",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("until_amount", None), ("until_on", None)),
                            models.Q(("until_amount__isnull", False), ("until_on__isnull", False)),
                            _connector="OR",
                        ),
                        name="part_stay_ends_with_its_service",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("counts_for", None), ("reconditioned_on", None)),
                            models.Q(
                                ("counts_for__gte", 0),
                                ("counts_for__lte", 1),
                                ("reconditioned_on__gte", models.F("until_on")),
                            ),
                            _connector="OR",
                        ),
                        name="part_is_reconditioned_out_of_the_engine",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Payment",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("received", "received"),
                            ("refund", "paid back"),
                            ("reversal", "taken back"),
                        ],
                        max_length=8,
                    ),
                ),
                ("number", models.CharField(max_length=24, unique=True)),
                ("deposit", models.BooleanField(default=False)),
                ("on", models.DateField(db_index=True)),
                ("amount", models.DecimalField(decimal_places=3, max_digits=16)),
                ("currency", models.CharField(max_length=3)),
                (
                    "method",
                    models.CharField(
                        choices=[
                            ("cash", "cash"),
                            ("card", "card"),
                            ("transfer", "bank transfer"),
                            ("cheque", "cheque"),
                        ],
                        max_length=8,
                    ),
                ),
                ("reference", models.CharField(blank=True, default="", max_length=140)),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                ("key", models.CharField(max_length=64, unique=True)),
                ("taken_at", models.DateTimeField()),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="payments",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="payments",
                        to="quotes.customer",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="payments",
                        to="quotes.job",
                    ),
                ),
                (
                    "reverses",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reversed_by",
                        to="quotes.payment",
                    ),
                ),
                (
                    "taken_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "receipt",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-on", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("amount__gt", 0)), name="payment_above_nought"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("kind", "reversal"), ("reverses__isnull", False)),
                            models.Q(models.Q(("kind", "reversal"), _negated=True), ("reverses", None)),
                            _connector="OR",
                        ),
                        name="payment_reversal_has_original",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("deposit", False),
                            ("build__isnull", False),
                            ("job__isnull", False),
                            _connector="OR",
                        ),
                        name="payment_deposit_is_for_something",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ServiceOutcome",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("type_code", models.CharField(max_length=64)),
                ("tier", models.CharField(max_length=64)),
                ("duty", models.CharField(max_length=64)),
                ("planned", models.DecimalField(decimal_places=2, max_digits=12)),
                ("ran", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("chance", models.FloatField()),
                ("chance_low", models.FloatField()),
                ("chance_high", models.FloatField()),
                ("shop_factor", models.FloatField()),
                ("wear_hazard", models.FloatField()),
                ("hands_hazard", models.FloatField()),
                (
                    "end",
                    models.CharField(
                        choices=[
                            ("ran", "it did not stop"),
                            ("stopped", "it stopped"),
                            ("outside", "it was stopped by what no estimate counts"),
                            ("unknown", "nobody knows"),
                        ],
                        max_length=10,
                    ),
                ),
                ("stopped_by", models.CharField(blank=True, default="", max_length=64)),
                ("on", models.DateField()),
                ("told_by", models.CharField(blank=True, default="", max_length=200)),
                ("note", models.CharField(blank=True, default="", max_length=500)),
                ("at", models.DateTimeField()),
                ("withdrawn_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_by", models.CharField(blank=True, default="", max_length=150)),
                ("withdrawn_because", models.CharField(blank=True, default="", max_length=300)),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="outcomes",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="outcomes",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("withdrawn_at", None)),
                        fields=("build",),
                        name="service_outcome_once_a_build",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("end", "unknown"), ("ran", None)),
                            models.Q(models.Q(("end", "unknown"), _negated=True), ("ran__gte", 0)),
                            _connector="OR",
                        ),
                        name="service_outcome_says_how_far",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("chance__gt", 0),
                            ("chance__lte", 1),
                            ("hands_hazard__gte", 0),
                            ("wear_hazard__gte", 0),
                        ),
                        name="service_outcome_has_a_promise",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ServiceReport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("amount", models.DecimalField(decimal_places=2, max_digits=12)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("duty", models.CharField(blank=True, default="", max_length=64)),
                ("on", models.DateField()),
                ("over_rev_pct", models.DecimalField(blank=True, decimal_places=2, max_digits=6, null=True)),
                ("oil_used", models.CharField(blank=True, default="", max_length=120)),
                ("filter_seen", models.CharField(blank=True, default="", max_length=300)),
                ("note", models.CharField(blank=True, default="", max_length=1000)),
                ("name", models.CharField(max_length=200)),
                ("how", models.CharField(blank=True, default="", max_length=120)),
                ("at", models.DateTimeField()),
                (
                    "corrects",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="corrected_by",
                        to="quotes.servicereport",
                    ),
                ),
                (
                    "engine",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reports",
                        to="quotes.engine",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reports",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("amount__gte", 0)), name="service_report_not_negative"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Release",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=20, unique=True)),
                ("seal", models.CharField(blank=True, default="", max_length=60)),
                ("released_to", models.CharField(max_length=200)),
                ("shown", models.CharField(blank=True, default="", max_length=200)),
                ("checks", models.JSONField(default=list)),
                ("unpaid_consent", models.CharField(blank=True, default="", max_length=300)),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
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
                    "job",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="release", to="quotes.job"
                    ),
                ),
                (
                    "card",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-at"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("released_to", ""), _negated=True), name="release_to_somebody"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="IntakeReceipt",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("given_at", models.DateTimeField()),
                ("given_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="receipts", to="quotes.job"
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["given_at", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("job", "sheet_sha256"), name="intake_receipt_once_a_state"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="FindingsReport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("index", models.PositiveSmallIntegerField()),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("issued_at", models.DateTimeField()),
                (
                    "issued_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="findings_reports",
                        to="quotes.job",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["job", "index"],
                "constraints": [
                    models.UniqueConstraint(fields=("job", "index"), name="findings_report_index_once"),
                    models.CheckConstraint(
                        condition=models.Q(("index__gte", 1)), name="findings_report_counts_from_one"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="AssemblyRecord",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("closed_at", models.DateTimeField()),
                (
                    "closed_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="record", to="quotes.job"
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-closed_at"],
            },
        ),
        migrations.CreateModel(
            name="TeardownDeclined",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "outcome",
                    models.CharField(
                        choices=[
                            ("reassembled", "put back together, at the price named"),
                            ("in_boxes", "returned in boxes"),
                            ("scrapped", "scrapped"),
                        ],
                        max_length=12,
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                (
                    "how",
                    models.CharField(
                        choices=[
                            ("signature", "by signature"),
                            ("message", "by written message"),
                            ("telephone", "by telephone, written down by us"),
                        ],
                        max_length=10,
                    ),
                ),
                ("telephone", models.CharField(blank=True, default="", max_length=40)),
                ("words", models.CharField(blank=True, default="", max_length=500)),
                ("said_at", models.DateTimeField()),
                (
                    "draft",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.invoicedraft",
                    ),
                ),
                (
                    "job",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="went_no_further",
                        to="quotes.job",
                    ),
                ),
                (
                    "written_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["said_at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("name", ""), _negated=True), name="teardown_declined_by_somebody"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="TeardownLeave",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("price", models.DecimalField(decimal_places=2, max_digits=12)),
                ("put_back_price", models.DecimalField(decimal_places=2, max_digits=12)),
                ("deposit", models.DecimalField(decimal_places=2, max_digits=12)),
                ("credited_if_ahead", models.BooleanField(default=True)),
                (
                    "if_not",
                    models.CharField(
                        choices=[
                            ("reassembled", "put back together, at the price named"),
                            ("in_boxes", "returned in boxes"),
                            ("scrapped", "scrapped"),
                        ],
                        max_length=12,
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("right", models.CharField(blank=True, default="", max_length=200)),
                (
                    "how",
                    models.CharField(
                        choices=[
                            ("signature", "by signature"),
                            ("message", "by written message"),
                            ("telephone", "by telephone, written down by us"),
                        ],
                        max_length=10,
                    ),
                ),
                ("telephone", models.CharField(blank=True, default="", max_length=40)),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("given_at", models.DateTimeField()),
                (
                    "job",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="leave", to="quotes.job"
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
                (
                    "written_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["given_at"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("deposit__gte", 0), ("price__gte", 0), ("put_back_price__gte", 0)
                        ),
                        name="teardown_leave_sums_not_negative",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name", ""), _negated=True),
                        name="teardown_leave_given_by_somebody",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="TestRun",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("name", models.CharField(max_length=120)),
                ("dyno", models.CharField(blank=True, default="", max_length=120)),
                ("correction", models.CharField(blank=True, default="", max_length=60)),
                ("values", models.JSONField(blank=True, default=list)),
                ("note", models.CharField(blank=True, default="", max_length=500)),
                ("on", models.DateField()),
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
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="tests", to="quotes.job"
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
            },
        ),
        migrations.CreateModel(
            name="WorkedHours",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("operation", models.CharField(blank=True, default="", max_length=64)),
                ("on", models.DateField()),
                (
                    "hours",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=6,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(24),
                        ],
                    ),
                ),
                ("note", models.CharField(blank=True, default="", max_length=200)),
                ("entered_by", models.CharField(max_length=150)),
                ("entered_at", models.DateTimeField()),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_hours",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_hours",
                        to="quotes.job",
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("hours__gt", 0), ("hours__lte", 24)),
                        name="worked_hours_fit_in_a_day",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("build__isnull", False), ("job__isnull", False), _connector="OR"),
                        name="worked_hours_on_something",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="WorksOrder",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("number", models.CharField(max_length=20, unique=True)),
                ("machine_work", models.CharField(max_length=64)),
                ("name", models.CharField(max_length=200)),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("vendor", models.CharField(max_length=200)),
                ("tag", models.CharField(max_length=40)),
                ("quantity", models.DecimalField(decimal_places=3, max_digits=10)),
                ("targets", models.JSONField(blank=True, default=list)),
                ("goes_with", models.JSONField(blank=True, default=list)),
                ("words", models.CharField(blank=True, default="", max_length=1000)),
                ("expected_cost", models.DecimalField(decimal_places=3, max_digits=16)),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("sent_on", models.DateField(db_index=True)),
                ("expected_on", models.DateField()),
                ("slow_on", models.DateField()),
                ("at", models.DateTimeField()),
                ("back_on", models.DateField(blank=True, null=True)),
                ("checked", models.JSONField(blank=True, default=list)),
                ("sound", models.BooleanField(blank=True, null=True)),
                (
                    "taken_off",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("skim", "skimmed"),
                            ("regrind", "reground"),
                            ("replate", "replated"),
                            ("seat_cut", "seats cut"),
                        ],
                        default="",
                        max_length=10,
                    ),
                ),
                ("taken_off_mm", models.DecimalField(blank=True, decimal_places=6, max_digits=16, null=True)),
                ("cost", models.DecimalField(blank=True, decimal_places=3, max_digits=16, null=True)),
                ("back_note", models.CharField(blank=True, default="", max_length=500)),
                ("back_by", models.CharField(blank=True, default="", max_length=150)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="works_orders",
                        to="quotes.job",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["-sent_on", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("quantity__gt", 0)), name="works_order_of_something"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("back_on", None), ("sound", None)),
                            models.Q(("back_on__isnull", False), ("sound__isnull", False)),
                            _connector="OR",
                        ),
                        name="works_order_checked_when_back",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Evidence",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(blank=True, editable=False, null=True, unique=True)),
                ("type_code", models.CharField(max_length=64)),
                ("component", models.CharField(max_length=64)),
                ("grade", models.CharField(blank=True, default="", max_length=20)),
                ("duty", models.CharField(max_length=64)),
                ("tier", models.CharField(max_length=64)),
                (
                    "outcome",
                    models.CharField(
                        choices=[
                            ("failed", "failed"),
                            ("sound", "still sound"),
                            ("past_limit", "found past its limit"),
                        ],
                        max_length=10,
                    ),
                ),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("entry", models.DecimalField(decimal_places=2, max_digits=12)),
                ("exit", models.DecimalField(decimal_places=2, max_digits=12)),
                ("seen_good_at", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                ("ran", models.FloatField(blank=True, null=True)),
                ("ran_at_entry", models.FloatField(blank=True, null=True)),
                ("on", models.DateField()),
                ("engine_name", models.CharField(blank=True, default="", max_length=120)),
                ("source", models.CharField(blank=True, default="", max_length=300)),
                ("at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_by", models.CharField(blank=True, default="", max_length=150)),
                ("withdrawn_because", models.CharField(blank=True, default="", max_length=300)),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "failure",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="learned",
                        to="quotes.failurereport",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="evidence",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("entry__gte", 0), ("exit__gte", models.F("entry"))),
                        name="evidence_ages_in_order",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("failure", None)),
                        fields=("job", "component"),
                        name="evidence_once_a_job",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("failure", None), ("job", None), _negated=True),
                            models.Q(("by__isnull", False), models.Q(("engine_name", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="evidence_says_whence",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("withdrawn_at", None),
                            models.Q(("withdrawn_because", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="evidence_withdrawn_says_why",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="JournalEntry",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("on", models.DateField(db_index=True)),
                (
                    "source",
                    models.CharField(
                        choices=[
                            ("invoice", "invoice"),
                            ("payment", "payment"),
                            ("write_off", "written off"),
                            ("bill", "supplier bill"),
                            ("bill_payment", "supplier paid"),
                            ("stock", "parts from stock"),
                            ("cost_of_sales", "cost of sales"),
                            ("cost_taken_back", "back in work"),
                            ("opening", "opening balance"),
                            ("other", "other"),
                        ],
                        max_length=16,
                    ),
                ),
                ("number", models.CharField(max_length=40)),
                ("party", models.CharField(blank=True, default="", max_length=200)),
                ("text", models.CharField(max_length=300)),
                ("total", models.DecimalField(decimal_places=3, max_digits=16)),
                ("posted_at", models.DateTimeField()),
                ("posted_by", models.CharField(max_length=150)),
                (
                    "batch",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="entries",
                        to="quotes.exportbatch",
                    ),
                ),
                (
                    "invoice",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="entries",
                        to="quotes.invoice",
                    ),
                ),
                (
                    "payment",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="entries",
                        to="quotes.payment",
                    ),
                ),
                (
                    "bill",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="entries",
                        to="quotes.supplierbill",
                    ),
                ),
                (
                    "write_off",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="entries",
                        to="quotes.writeoff",
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
            },
        ),
        migrations.CreateModel(
            name="OpenItem",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("invoice", "invoice"),
                            ("deposit_invoice", "deposit invoice"),
                            ("credit_note", "credit note"),
                            ("payment", "payment"),
                            ("refund", "paid back"),
                            ("write_off", "written off"),
                            ("opening", "opening balance"),
                        ],
                        max_length=16,
                    ),
                ),
                ("number", models.CharField(max_length=24)),
                ("on", models.DateField()),
                ("due_on", models.DateField(blank=True, db_index=True, null=True)),
                ("amount", models.DecimalField(decimal_places=3, max_digits=16)),
                ("open_amount", models.DecimalField(decimal_places=3, max_digits=16)),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="items",
                        to="quotes.customer",
                    ),
                ),
                (
                    "invoice",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="item",
                        to="quotes.invoice",
                    ),
                ),
                (
                    "payment",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="item",
                        to="quotes.payment",
                    ),
                ),
                (
                    "write_off",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="item",
                        to="quotes.writeoff",
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "indexes": [models.Index(fields=["customer", "on"], name="open_item_of_customer")],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("amount__gte", 0),
                                ("open_amount__gte", 0),
                                ("open_amount__lte", models.F("amount")),
                            ),
                            models.Q(
                                ("amount__lte", 0),
                                ("open_amount__gte", models.F("amount")),
                                ("open_amount__lte", 0),
                            ),
                            _connector="OR",
                        ),
                        name="open_amount_within_amount",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="OrderLine",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("component", models.CharField(blank=True, default="", max_length=64)),
                ("grade", models.CharField(blank=True, default="", max_length=20)),
                ("part_number", models.CharField(max_length=64)),
                ("description", models.CharField(max_length=300)),
                ("size", models.CharField(blank=True, default="", max_length=80)),
                ("unit", models.CharField(max_length=60)),
                ("quantity", models.DecimalField(decimal_places=3, max_digits=10)),
                ("unit_cost", models.DecimalField(decimal_places=3, max_digits=16)),
                (
                    "quoted_unit_cost",
                    models.DecimalField(blank=True, decimal_places=3, max_digits=16, null=True),
                ),
                ("line_key", models.CharField(blank=True, default="", max_length=120)),
                ("expected_on", models.DateField(blank=True, null=True)),
                ("slow_on", models.DateField(blank=True, null=True)),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="ordered",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "reading",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.measured",
                    ),
                ),
                (
                    "replaces",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="replaced_by",
                        to="quotes.orderline",
                    ),
                ),
                (
                    "order",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="lines",
                        to="quotes.purchaseorder",
                    ),
                ),
            ],
            options={
                "ordering": ["order", "position"],
                "constraints": [
                    models.UniqueConstraint(fields=("order", "position"), name="order_line_position_once"),
                    models.CheckConstraint(
                        condition=models.Q(("quantity__gt", 0)), name="order_line_of_something"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="BankLine",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("row", models.PositiveIntegerField()),
                ("on", models.DateField()),
                ("amount", models.DecimalField(decimal_places=3, max_digits=16)),
                ("payer", models.CharField(blank=True, default="", max_length=200)),
                ("text", models.CharField(blank=True, default="", max_length=500)),
                ("fingerprint", models.CharField(max_length=64, unique=True)),
                (
                    "state",
                    models.CharField(
                        choices=[
                            ("waiting", "waiting"),
                            ("taken", "taken as a payment"),
                            ("put_aside", "put aside"),
                        ],
                        default="waiting",
                        max_length=12,
                    ),
                ),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                (
                    "file",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="lines",
                        to="quotes.bankfile",
                    ),
                ),
                (
                    "payment",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="bank_line",
                        to="quotes.payment",
                    ),
                ),
            ],
            options={
                "ordering": ["file", "row"],
            },
        ),
        migrations.CreateModel(
            name="Photo",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "about",
                    models.CharField(
                        choices=[
                            ("intake", "as it came in"),
                            ("finding", "a finding"),
                            ("extra_work", "extra work"),
                            ("machine_work", "machine work"),
                            ("assembly", "assembly"),
                        ],
                        max_length=12,
                    ),
                ),
                ("place", models.CharField(blank=True, default="", max_length=80)),
                ("words", models.CharField(blank=True, default="", max_length=300)),
                ("added_at", models.DateTimeField()),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "finding",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="photos",
                        to="quotes.findingseen",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="photos", to="quotes.job"
                    ),
                ),
                (
                    "image",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="quotes.storedfile"
                    ),
                ),
                (
                    "small",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="quotes.storedfile"
                    ),
                ),
            ],
            options={
                "ordering": ["added_at", "id"],
            },
        ),
        migrations.CreateModel(
            name="ClockRun",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("operation", models.CharField(blank=True, default="", max_length=64)),
                ("started_at", models.DateTimeField()),
                ("stopped_at", models.DateTimeField(blank=True, null=True)),
                ("settled", models.CharField(blank=True, default="", max_length=300)),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="clock_runs",
                        to="quotes.job",
                    ),
                ),
                (
                    "worked",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="clock_run",
                        to="quotes.workedhours",
                    ),
                ),
            ],
            options={
                "ordering": ["-started_at", "-id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("stopped_at", None)),
                        fields=("person",),
                        name="clock_runs_once_a_person",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("stopped_at", None), ("stopped_at__gte", models.F("started_at")), _connector="OR"
                        ),
                        name="clock_stops_after_it_starts",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="JournalLine",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("order", models.PositiveSmallIntegerField()),
                ("role", models.CharField(max_length=32)),
                ("account", models.CharField(max_length=20)),
                ("account_name", models.CharField(max_length=80)),
                ("debit", models.DecimalField(decimal_places=3, max_digits=16)),
                ("credit", models.DecimalField(decimal_places=3, max_digits=16)),
                ("text", models.CharField(blank=True, default="", max_length=300)),
                ("tax_code", models.CharField(blank=True, default="", max_length=20)),
                ("rate_pct", models.DecimalField(blank=True, decimal_places=4, max_digits=7, null=True)),
                (
                    "build",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="journal_lines",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "entry",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="lines",
                        to="quotes.journalentry",
                    ),
                ),
            ],
            options={
                "ordering": ["entry", "order"],
                "constraints": [
                    models.UniqueConstraint(fields=("entry", "order"), name="journal_line_order_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("credit", 0), ("debit__gt", 0)),
                            models.Q(("credit__gt", 0), ("debit", 0)),
                            models.Q(("credit", 0), ("debit", 0)),
                            _connector="OR",
                        ),
                        name="journal_line_has_one_side",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Allocation",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("amount", models.DecimalField(decimal_places=3, max_digits=16)),
                ("on", models.DateField()),
                ("at", models.DateTimeField()),
                ("by", models.CharField(max_length=150)),
                (
                    "credit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="settles",
                        to="quotes.openitem",
                    ),
                ),
                (
                    "debit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="settled_by",
                        to="quotes.openitem",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("amount", 0), _negated=True), name="allocation_is_not_nought"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("debit", models.F("credit")), _negated=True),
                        name="allocation_of_two_items",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="OrderEvent",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("received", "received, good"),
                            ("damaged", "received damaged"),
                            ("wrong", "the wrong part"),
                            ("back_ordered", "on back-order"),
                            ("returned", "returned to the supplier"),
                            ("cancelled", "cancelled"),
                        ],
                        max_length=14,
                    ),
                ),
                ("quantity", models.DecimalField(decimal_places=3, max_digits=10)),
                ("on", models.DateField()),
                ("promised_on", models.DateField(blank=True, null=True)),
                ("unit_cost", models.DecimalField(blank=True, decimal_places=3, max_digits=16, null=True)),
                ("batch", models.CharField(blank=True, default="", max_length=80)),
                ("note", models.CharField(blank=True, default="", max_length=300)),
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
                    "line",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="events",
                        to="quotes.orderline",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("quantity", 0), _negated=True), name="order_event_of_something"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="ExtraWork",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("index", models.PositiveSmallIntegerField()),
                ("words", models.CharField(max_length=300)),
                ("risk_if_declined", models.CharField(blank=True, default="", max_length=300)),
                ("lines", models.JSONField()),
                ("net", models.DecimalField(decimal_places=3, max_digits=16)),
                ("tax", models.DecimalField(decimal_places=3, max_digits=16)),
                ("gross", models.DecimalField(decimal_places=3, max_digits=16)),
                ("touches", models.JSONField(blank=True, default=list)),
                ("stops", models.JSONField(blank=True, default=list)),
                ("components", models.JSONField(blank=True, default=list)),
                ("rider_safety", models.BooleanField(default=False)),
                ("old_gross", models.DecimalField(blank=True, decimal_places=3, max_digits=16, null=True)),
                ("new_gross", models.DecimalField(blank=True, decimal_places=3, max_digits=16, null=True)),
                ("old_ready_on", models.DateField(blank=True, null=True)),
                ("new_ready_on", models.DateField(blank=True, null=True)),
                ("offered_at", models.DateTimeField()),
                (
                    "state",
                    models.CharField(
                        choices=[
                            ("offered", "offered"),
                            ("accepted", "accepted"),
                            ("declined", "declined"),
                            ("within", "within the limit"),
                            ("withdrawn", "withdrawn"),
                        ],
                        default="offered",
                        max_length=9,
                    ),
                ),
                ("answered_at", models.DateTimeField(blank=True, null=True)),
                ("answered_by", models.CharField(blank=True, default="", max_length=200)),
                ("answered_how", models.CharField(blank=True, default="", max_length=200)),
                ("answer_note", models.CharField(blank=True, default="", max_length=300)),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="extra_work",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "offered_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "finding",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.findingseen",
                    ),
                ),
                (
                    "photo",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.photo",
                    ),
                ),
            ],
            options={
                "ordering": ["build", "index"],
                "constraints": [
                    models.UniqueConstraint(fields=("build", "index"), name="extra_work_index_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("answered_at", None), ("state__in", ("offered", "within", "withdrawn"))
                            ),
                            models.Q(
                                ("answered_at__isnull", False),
                                ("state__in", ("accepted", "declined")),
                                models.Q(("answered_by", ""), _negated=True),
                            ),
                            _connector="OR",
                        ),
                        name="extra_work_answered_by_somebody",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Substitute",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("part_number", models.CharField(max_length=64)),
                ("description", models.CharField(max_length=300)),
                ("supplier", models.CharField(max_length=64)),
                ("grade", models.CharField(blank=True, default="", max_length=20)),
                ("unit_cost", models.DecimalField(decimal_places=3, max_digits=16)),
                ("unit_price", models.DecimalField(decimal_places=3, max_digits=16)),
                ("expected_on", models.DateField(blank=True, null=True)),
                ("why", models.CharField(max_length=300)),
                ("life_note", models.CharField(blank=True, default="", max_length=300)),
                ("needs_yes", models.BooleanField()),
                ("dropped_at", models.DateTimeField(blank=True, null=True)),
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
                    "extra_work",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="substitute",
                        to="quotes.extrawork",
                    ),
                ),
                (
                    "line",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="substitutes",
                        to="quotes.orderline",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
            },
        ),
        migrations.CreateModel(
            name="WorkedAgain",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("request", models.JSONField()),
                ("option", models.JSONField()),
                ("made_at", models.DateTimeField()),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_again",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "extra_work",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_again",
                        to="quotes.extrawork",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_again",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["made_at", "id"],
            },
        ),
        migrations.AddField(
            model_name="quote",
            name="latest",
            field=models.OneToOneField(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="quotes.revision",
            ),
        ),
        migrations.AddField(
            model_name="invoicedraft",
            name="original",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="quotes.invoice",
            ),
        ),
        migrations.AddConstraint(
            model_name="quote",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("latest", None), ("number", None)),
                    models.Q(("latest__isnull", False), ("number__isnull", False)),
                    _connector="OR",
                ),
                name="quote_numbered_when_issued",
            ),
        ),
        migrations.AddConstraint(
            model_name="invoicedraft",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("kind", "credit_note"), ("original__isnull", False)),
                    models.Q(models.Q(("kind", "credit_note"), _negated=True), ("original", None)),
                    _connector="OR",
                ),
                name="draft_credit_note_has_original",
            ),
        ),
        migrations.AddConstraint(
            model_name="invoicedraft",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("kind", "deposit_invoice"), _negated=True),
                    ("build__isnull", False),
                    _connector="OR",
                ),
                name="draft_deposit_has_build",
            ),
        ),
    ])
