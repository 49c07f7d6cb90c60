"""Buckets on the server of the tests."""

from __future__ import annotations

import boto3

from catalogue.models.file_bucket import Bucket


def bucket(server: str, name: str) -> Bucket:
    """A new bucket of that name, as the site uses one."""
    given = {"region_name": "us-east-1", "endpoint_url": server}
    keys = {"access_key": "of-a-test", "secret_key": "of-a-test"}
    boto3.client(
        "s3", **given, aws_access_key_id="of-a-test", aws_secret_access_key="of-a-test"
    ).create_bucket(Bucket=name.lower())
    return Bucket(bucket_name=name.lower(), location="engines", **given, **keys)
