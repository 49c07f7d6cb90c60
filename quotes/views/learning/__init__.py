"""What the bench says of lives: pages for the owner, who decides, and the builder, who may look."""

from django.urls import URLPattern, path

from quotes.views.learning import by_hand, deciding, life, lives

urlpatterns: list[URLPattern] = [
    path("lives/", lives.lives, name="lives"),
    path("lives/earlier/", by_hand.earlier, name="lives-earlier"),
    path("lives/file/", by_hand.from_file, name="lives-file"),
    path("lives/evidence/<int:pk>/withdraw/", by_hand.withdraw, name="evidence-withdraw"),
    path("lives/changes/<int:pk>/back/", deciding.take_back, name="life-back"),
    path("lives/<str:component>/<str:basis>/", life.life, name="life"),
    path("lives/<str:component>/<str:basis>/approve/", deciding.approve, name="life-approve"),
]
