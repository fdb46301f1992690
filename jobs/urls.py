"""Addresses of the jobs pages."""

from django.urls import path

from jobs.views import holidays, lists, office, phone

app_name = "jobs"
urlpatterns = [
    path("jobs/", lists.job_list, name="list"),
    path("jobs/from-quote/<int:quote_pk>/", lists.make_job, name="make"),
    path("jobs/holidays/", holidays.holiday_list, name="holidays"),
    path("jobs/holidays/<int:pk>/remove/", holidays.holiday_remove, name="holiday_remove"),
    # /jobs/<pk>/: the installer's phone
    path("jobs/<int:pk>/", phone.job_page, name="job"),
    path("jobs/<int:pk>/plan/", phone.plan_page, name="plan"),
    path("jobs/<int:pk>/plan.svg", phone.plan_image, name="plan_image"),
    path("jobs/<int:pk>/tasks/<int:task_pk>/", phone.check_off, name="check_off"),
    # /jobs/<pk>/office/: what the office arranges
    path("jobs/<int:pk>/office/", office.office_page, name="office"),
    path("jobs/<int:pk>/office/schedule/", office.schedule, name="schedule"),
    path("jobs/<int:pk>/office/locates/", office.locate_add, name="locate_add"),
    path("jobs/<int:pk>/office/locates/<int:locate_pk>/", office.locate_amend, name="locate_amend"),
    path("jobs/<int:pk>/office/override/", office.override, name="override"),
    path("jobs/<int:pk>/office/trades/<slug:trade>/", office.booking, name="booking"),
    path("jobs/<int:pk>/office/finish/", office.finish, name="finish"),
    path("jobs/<int:pk>/office/reopen/", office.reopen, name="reopen"),
]
