from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0002_enquiry_booking")]

    operations = [
        migrations.AddField(
            model_name="quote",
            name="card_key",
            field=models.CharField(default=None, editable=False, max_length=32, null=True, unique=True),
        ),
    ]
