from __future__ import annotations

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("bom", "0007_sewing_settings")]

    operations = [
        migrations.AddField(
            model_name="program",
            name="precuts",
            field=models.JSONField(blank=True, default=list),
        ),
    ]
