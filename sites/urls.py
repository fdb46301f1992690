"""Addresses of the sites pages."""

from django.urls import path

from sites import (
    board_clash_views,
    board_tool_views,
    board_views,
    climate_views,
    compare_views,
    coverage_views,
    customer_views,
    ground_file_views,
    leaving_views,
    level_views,
    limit_views,
    photo_views,
    picture_views,
    plan_file_views,
    plan_views,
    site_views,
    sizing_views,
    survey_views,
    trace_views,
    visit_views,
    walk_views,
    watering_views,
)

app_name = "sites"
urlpatterns = [
    # /limits/
    path("limits/", limit_views.limit_list, name="limits"),
    path("limits/<slug:name>/", limit_views.limit_edit, name="limit"),
    # /customers/
    path("customers/", customer_views.customer_list, name="customers"),
    path("customers/add/", customer_views.customer_add, name="customer-add"),
    path("customers/<int:pk>/", customer_views.customer_detail, name="customer"),
    path("customers/<int:pk>/edit/", customer_views.customer_edit, name="customer-edit"),
    path("customers/<int:customer_pk>/sites/add/", site_views.site_add, name="site-add"),
    # /sites/<pk>/
    path("sites/<int:pk>/", site_views.site_detail, name="site"),
    path("sites/<int:pk>/edit/", site_views.site_edit, name="site-edit"),
    path("sites/<int:site_pk>/visits/add/", visit_views.visit_add, name="visit-add"),
    path("sites/<int:site_pk>/visit-arithmetic/", visit_views.visit_arithmetic, name="visit-arithmetic"),
    path("sites/<int:site_pk>/climate/", climate_views.climate_edit, name="climate"),
    path("sites/<int:site_pk>/climate/file/", climate_views.climate_file, name="climate-file"),
    path("sites/<int:site_pk>/watering-rules/", watering_views.watering_rules, name="watering-rules"),
    # /sites/<pk>/ground-file/
    path("sites/<int:site_pk>/ground-file/", ground_file_views.ground_file, name="ground-file"),
    path(
        "sites/<int:site_pk>/ground-file/<str:token>/",
        ground_file_views.ground_file_layers,
        name="ground-file-layers",
    ),
    # /sites/<pk>/board/
    path("sites/<int:site_pk>/board/", board_views.board, name="board"),
    path("sites/<int:site_pk>/board/check/", board_views.board_check, name="board-check"),
    path("sites/<int:site_pk>/board/clash/", board_clash_views.board_clash, name="board-clash"),
    path("sites/<int:site_pk>/board/draft.json", board_clash_views.board_draft_file, name="board-draft-file"),
    path("sites/<int:site_pk>/board/draft/", board_views.board_draft, name="board-draft"),
    path("sites/<int:site_pk>/board/discard/", board_views.board_discard, name="board-discard"),
    path("sites/<int:site_pk>/board/keep/", board_views.board_keep, name="board-keep"),
    path("sites/<int:site_pk>/board/measure/", board_tool_views.board_measure, name="board-measure"),
    path("sites/<int:site_pk>/board/place/", board_tool_views.board_place, name="board-place"),
    path("sites/<int:site_pk>/board/wetting/", board_tool_views.board_wetting, name="board-wetting"),
    # /visits/<pk>/
    path("visits/<int:pk>/", visit_views.visit_detail, name="visit"),
    path("visits/<int:pk>/edit/", visit_views.visit_edit, name="visit-edit"),
    path("visits/<int:pk>/levels/", level_views.levels, name="levels"),
    path("visits/<int:pk>/levels/board/", level_views.levels_board, name="levels-board"),
    path("visits/<int:pk>/trace/", trace_views.trace, name="trace"),
    path("visits/<int:pk>/trace/work/", trace_views.trace_work, name="trace-work"),
    path("visits/<int:pk>/trace/save/", trace_views.trace_save, name="trace-save"),
    path("visits/<int:pk>/trace/board/", trace_views.trace_board, name="trace-board"),
    path("visits/<int:pk>/ground/", survey_views.survey_edit, name="survey"),
    path("visits/<int:pk>/ground/so-far/", survey_views.survey_live, name="survey-live"),
    path("visits/<int:pk>/leaving/", leaving_views.leaving, name="leaving"),
    path("visits/<int:pk>/leaving/fragile/", leaving_views.leaving_fragile, name="leaving-fragile"),
    path("visits/<int:pk>/board/", visit_views.visit_board, name="visit-board"),
    path("visits/<int:visit_pk>/plan/", plan_views.plan_start, name="plan-start"),
    path("visits/<int:pk>/walk/", walk_views.walk, name="walk"),
    path("visits/<int:pk>/walk/print/", walk_views.walk_print, name="walk-print"),
    path("visits/<int:pk>/walk/<slug:key>/", walk_views.walk_line, name="walk-line"),
    path("visits/<int:pk>/photos/", photo_views.photos, name="photos"),
    path("sites/<int:site_pk>/walk/", walk_views.walk_start, name="walk-start"),
    path("sites/<int:site_pk>/walk/print/", walk_views.walk_print_empty, name="walk-print-empty"),
    # /photos/<pk>/
    path("photos/<int:pk>/", photo_views.photo_edit, name="photo"),
    path("photos/<int:pk>/remove/", photo_views.photo_remove, name="photo-remove"),
    # /pictures/<pk>/
    path("pictures/<int:pk>/", picture_views.picture, name="picture"),
    path("pictures/<int:pk>/small/", picture_views.picture_small, name="picture-small"),
    # /sites/<pk>/plans/<number>/
    path("sites/<int:site_pk>/plans/", plan_views.plan_save, name="plan-save"),
    path("sites/<int:site_pk>/plans/import/", plan_views.plan_import, name="plan-import"),
    path("sites/<int:site_pk>/plans/compare/", compare_views.plan_compare, name="compare"),
    path("sites/<int:site_pk>/plans/<int:number>/", plan_views.plan_detail, name="plan"),
    path("sites/<int:site_pk>/plans/<int:number>/edit/", plan_views.plan_edit, name="plan-edit"),
    path("sites/<int:site_pk>/plans/<int:number>/plan.json", plan_file_views.plan_json, name="plan-json"),
    path(
        "sites/<int:site_pk>/plans/<int:number>/wetting.svg", coverage_views.plan_wetting, name="plan-wetting"
    ),
    path("sites/<int:site_pk>/plans/<int:number>/plan.svg", plan_file_views.plan_svg, name="plan-svg"),
    path(
        "sites/<int:site_pk>/plans/<int:number>/plan.geojson",
        plan_file_views.plan_geojson,
        name="plan-geojson",
    ),
    path("sites/<int:site_pk>/plans/<int:number>/plan.dxf", plan_file_views.plan_dxf, name="plan-dxf"),
    path("sites/<int:site_pk>/plans/<int:number>/plan.pdf", plan_file_views.plan_sheet, name="plan-pdf"),
    path("sites/<int:site_pk>/plans/<int:number>/case.inp", plan_file_views.plan_case, name="plan-case"),
    path("sites/<int:site_pk>/plans/<int:number>/watering/", watering_views.watering_year, name="watering"),
    path("sites/<int:site_pk>/plans/<int:number>/sizes/", sizing_views.plan_sizes, name="sizes"),
]
