"""App configuration."""

from django.apps import AppConfig

from office.navigation import add_entry, add_panel


class JobsConfig(AppConfig):
    name = "jobs"

    def ready(self) -> None:
        from jobs.panels import jobs_in_question, jobs_of_site, jobs_of_today, jobs_to_come
        from jobs.services import make_job_after_accept
        from quoting.lifecycle import AFTER_ACCEPT
        from sites.panels import add_site_panel

        AFTER_ACCEPT.append(make_job_after_accept)
        add_entry("Jobs", "jobs:list", audience="is_active", order=40)
        add_panel(
            "Jobs today", jobs_of_today, audience="is_active", order=10,
            empty="No job is planned for today.",
        )  # fmt: skip
        add_panel(
            "Your next jobs", jobs_to_come, audience="is_installer", order=15,
            empty="You are on no other job. The list of jobs has those of the others.",
        )  # fmt: skip
        add_site_panel("Jobs", jobs_of_site, empty="No job here yet.", audience="is_active", order=40)
        add_panel(
            "Jobs waiting for the office", jobs_in_question, order=20, empty="No job waits for the office."
        )
