"""Where the spot of a marked photograph lies, on the whole and on the close-up that answers show."""

from dataclasses import dataclass

SMALLEST_RADIUS, LARGEST_RADIUS = 0.01, 0.5
# The close-up has the shape of the small pictures of parts, and the spot fills so much of its height.
SHAPE = 96 / 64
SPOT_OF_HEIGHT = 0.6


@dataclass(frozen=True)
class Spot:
    """A circle on a picture, in pixels of it."""

    x: float
    y: float
    radius: float


def spot_on(width: int, height: int, x: float, y: float, radius: float) -> Spot:
    """The spot in pixels: `x`, `y` are shares of width and height, `radius` of the longer side."""
    return Spot(x * width, y * height, radius * max(width, height))


@dataclass(frozen=True)
class MarkedFacts:
    """A marked photograph as pages show it. `x`, `y`: shares of width and height; `radius`: of the longer side."""

    number: int
    key: str
    close_key: str
    width: int
    height: int
    x: float
    y: float
    radius: float
    shows: str
    credit: str
    licence: str
    drawn: bool

    @property
    def spot(self) -> Spot:
        """On the whole picture."""
        return spot_on(self.width, self.height, self.x, self.y, self.radius)

    @property
    def close(self) -> tuple[float, float, float, float]:
        return close_up(self.width, self.height, self.spot)

    @property
    def close_spot(self) -> Spot:
        """On the close-up, in pixels of the whole from the close-up's corner."""
        x, y, _, _ = self.close
        return Spot(self.spot.x - x, self.spot.y - y, self.spot.radius)

    @property
    def words(self) -> str:
        """What it shows, for who cannot see it."""
        return f"Drawn in place of a photograph: {self.shows}" if self.drawn else f"Photograph: {self.shows}"

    @property
    def owed(self) -> str:
        """Whose it is, and under what terms; that it is drawn."""
        told = ", ".join(part for part in (self.credit, self.licence) if part)
        return f"drawn, not photographed: {told}" if self.drawn else told


def close_up(width: int, height: int, spot: Spot) -> tuple[float, float, float, float]:
    """Left, top, width and height of what lies round a spot, in pixels: in the shape of a part's picture where the
    photograph is large enough, and always within it."""
    high = min(2 * spot.radius / SPOT_OF_HEIGHT, height)
    wide = min(high * SHAPE, width)
    high = min(high, wide / SHAPE)
    left = min(max(spot.x - wide / 2, 0), width - wide)
    top = min(max(spot.y - high / 2, 0), height - high)
    return left, top, wide, high


def marked_facts(row) -> MarkedFacts | None:
    """The photograph of a feature or state; None where it has none, or where nobody has marked the spot yet.

    `row`: a Feature or FeatureState that was read together with its photograph.
    """
    found = getattr(row, "photograph", None)
    if found is None or not found.is_marked:
        return None
    names = [name for name in MarkedFacts.__dataclass_fields__ if name != "number"]
    return MarkedFacts(number=found.pk, **{name: getattr(found, name) for name in names})
