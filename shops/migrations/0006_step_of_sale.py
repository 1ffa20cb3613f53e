from __future__ import annotations

from django.db import migrations

import patterns.models.fields


class Migration(migrations.Migration):
    dependencies = [("shops", "0005_edition_of_packets")]

    operations = [
        migrations.AddField(
            model_name="terms",
            name="sold_by",
            field=patterns.models.fields.InchesField(
                blank=True, max_length=40, null=True, verbose_name="fabric is sold by"
            ),
        ),
    ]
