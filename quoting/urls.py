"""Addresses of the quoting pages."""

from django.urls import path

from quoting import views_customer, views_life, views_line, views_list, views_quote, views_settings

app_name = "quoting"
urlpatterns = [
    path("quotes/", views_list.quote_list, name="list"),
    path("quotes/new/", views_list.quote_new, name="new"),
    path("quotes/new/<int:plan_pk>/", views_list.quote_draft, name="draft"),
    path("pricing/", views_settings.policy_edit, name="policy"),
    path("pricing/rates/", views_settings.rate_list, name="rates"),
    path("pricing/rates/<slug:work>/", views_settings.rate_edit, name="rate"),
    # /quotes/<pk>/
    path("quotes/<int:pk>/", views_quote.quote_detail, name="quote"),
    path("quotes/<int:pk>/edit/", views_quote.quote_edit, name="edit"),
    path("quotes/<int:pk>/rework/", views_quote.quote_rework, name="rework"),
    path("quotes/<int:pk>/discard/", views_quote.quote_discard, name="discard"),
    path("quotes/<int:pk>/pdf/", views_quote.quote_pdf, name="pdf"),
    path("quotes/<int:pk>/lines/add/", views_line.line_add, name="line-add"),
    path("quotes/<int:pk>/lines/<int:line_pk>/", views_line.line_edit, name="line"),
    path("quotes/<int:pk>/lines/<int:line_pk>/remove/", views_line.line_remove, name="line-remove"),
    path("quotes/<int:pk>/issue/", views_life.issue, name="issue"),
    path("quotes/<int:pk>/link/", views_life.link_make, name="link"),
    path("quotes/<int:pk>/link/revoke/", views_life.link_revoke, name="link-revoke"),
    path("quotes/<int:pk>/accept/", views_life.accept, name="accept"),
    path("quotes/<int:pk>/decline/", views_life.decline, name="decline"),
    path("quotes/<int:pk>/revise/", views_life.revise, name="revise"),
    # the customer's page
    path("o/<str:token>/", views_customer.offer, name="offer"),
    path("o/<str:token>/pdf/", views_customer.offer_pdf, name="offer-pdf"),
    path("o/<str:token>/total/", views_customer.offer_total, name="offer-total"),
    path("o/<str:token>/accept/", views_customer.offer_accept, name="offer-accept"),
    path("o/<str:token>/decline/", views_customer.offer_decline, name="offer-decline"),
]
