"""Addresses of the public pages, signing in, and the participant's pages; the shops' own are in shop_urls."""

from __future__ import annotations

from django.contrib.auth.views import LogoutView
from django.urls import path
from django.views.generic import RedirectView

from shops.shop_urls import shop_urls
from shops.web import accounts, downloads, my_year, problems, public, sign_up

public_urls = [
    path("", public.start, name="start"),
    path("programs/", public.programs, name="programs"),
    path("p/<slug:slug>/", public.program, name="program-public"),
    path("p/<slug:slug>/sign-up/<slug:shop>/", sign_up.sign_up_at, name="sign-up"),
    path("p/<slug:slug>/sign-up/<slug:shop>/done/", sign_up.sign_up_done, name="sign-up-done"),
]

# The names that begin with account_ are those that allauth looks for; no other page of it is served.
account_urls = [
    path("sign-in/", accounts.SignInView.as_view(), name="sign-in"),
    path("sign-in/", accounts.SignInView.as_view(), name="account_login"),
    path("sign-in/", accounts.SignInView.as_view(), name="account_request_login_code"),
    path("sign-in/code/", accounts.CodeView.as_view(), name="account_confirm_login_code"),
    path("sign-in/closed/", RedirectView.as_view(pattern_name="sign-in"), name="account_inactive"),
    path("sign-in/as/<int:pk>/", accounts.sign_in_as, name="sign-in-as"),
    path("sign-out/", LogoutView.as_view(next_page="start"), name="sign-out"),
]

my_urls = [
    path("my/", my_year.my_year, name="my-year"),
    path("r/<slug:slug>/<int:number>/<int:edition>/", problems.from_sheet, name="sheet-problem"),
    path("my/settings/", my_year.my_settings, name="my-settings"),
    path("my/<int:sign_up>/", my_year.my_program, name="my-program"),
    path("my/<int:sign_up>/days.ics", my_year.my_days, name="my-days"),
    path("my/<int:sign_up>/sewn/<int:block>/", my_year.sewn, name="my-sewn"),
    path("my/<int:sign_up>/sheet/<int:number>.pdf", downloads.sheet, name="my-sheet"),
    path("my/<int:sign_up>/document/<slug:kind>.pdf", downloads.document, name="my-document"),
    path("my/<int:sign_up>/problem/<int:number>/", problems.problem, name="my-problem"),
]

urlpatterns = [*public_urls, *account_urls, *my_urls, *shop_urls]
