"""The engines on the bench: the list of jobs, and a job's own page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes.models import Job
from quotes.queries.bench.areas import job_lines
from quotes.queries.bench.jobs import jobs_listed
from quotes.views.access import role_required


@require_safe
@role_required("desk", "builder", "books", "owner")
def bench(request: HttpRequest) -> HttpResponse:
    """The jobs in the workshop."""
    jobs = jobs_listed(timezone.localdate()).in_the_shop()
    return render(request, "quotes/bench/jobs.html", {"jobs": jobs})


@require_safe
@role_required("desk", "builder", "books", "owner")
def job(request: HttpRequest, pk: int) -> HttpResponse:
    """A job, in the order of its work."""
    row = get_object_or_404(Job.objects.joined(), pk=pk)
    context = {"job": row, "lines": job_lines(row, timezone.localdate())}
    return render(request, "quotes/bench/job.html", context)


urlpatterns = [
    path("bench/", bench, name="bench"),
    path("bench/<int:pk>/", job, name="job"),
]
