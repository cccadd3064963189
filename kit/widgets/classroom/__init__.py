"""The card on which a teacher sets what holds for the class."""

from kit.widgets.classroom.setting import settings_card

__all__ = ["settings_card"]
