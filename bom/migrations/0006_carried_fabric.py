from __future__ import annotations

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("bom", "0005_strip_proofs")]

    operations = [
        migrations.AddField(
            model_name="installment",
            name="carried",
            field=models.JSONField(blank=True, default=dict),
        ),
    ]
