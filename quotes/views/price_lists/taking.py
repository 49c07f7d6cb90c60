"""Addresses of price lists once they are read: what they do, rates, terms and listed parts."""

from __future__ import annotations

from django.urls import path

from quotes.views.price_lists import listed, one, overview

urlpatterns = [
    path("catalogue/price-lists/", overview.PriceLists.as_view(), name="price-list-list"),
    path("catalogue/price-lists/rates/", overview.rates, name="exchange-rates"),
    path("catalogue/price-lists/rates/<int:pk>/drop/", overview.rate_drop, name="exchange-rate-drop"),
    path("catalogue/price-lists/of/<str:code>/", overview.terms, name="price-list-terms"),
    path("catalogue/price-lists/<int:pk>/", one.price_list, name="price-list"),
    path("catalogue/price-lists/<int:pk>/effect/", one.effect, name="price-list-effect"),
    path("catalogue/price-lists/<int:pk>/check/", one.check, name="price-list-check"),
    path("catalogue/price-lists/<int:pk>/yes/", one.yes, name="price-list-yes"),
    path("catalogue/price-lists/<int:pk>/take/", one.take, name="price-list-take"),
    path("catalogue/price-lists/<int:pk>/undo/", one.undo, name="price-list-undo"),
    path("catalogue/price-lists/<int:pk>/drop/", one.drop, name="price-list-drop"),
    path("catalogue/listed-parts/<int:pk>/", listed.listed_part, name="listed-part"),
    path("catalogue/listed-parts/<int:pk>/offer/", listed.offer_card, name="listed-part-offer"),
]
