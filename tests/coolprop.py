"""CoolProp, the outside check for gas and water properties. It takes seconds to load, so only a test that asks it does."""


def PropsSI(*question):
    """Its own function of this name: what is wanted, then two known quantities with their names, then the fluid; SI units."""
    from CoolProp.CoolProp import PropsSI

    return PropsSI(*question)
