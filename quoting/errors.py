"""What can be wrong with a request about a quote; each says what to do next."""


class QuoteError(Exception):
    """Base class: the sentence is for the person who asked."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


class MoveRefused(QuoteError):
    """The quote cannot go from where it is to where it was asked to go."""


class NotADraft(QuoteError):
    def __init__(self) -> None:
        super().__init__("This quote is out and can no longer change. Make a new revision of it instead.")


class LineGone(QuoteError):
    def __init__(self) -> None:
        super().__init__("This line has been taken out in the meantime. Go back to the quote and look.")


class PlanNotPriceable(QuoteError):
    """The plan cannot be turned into lines; the sentence names what is wrong."""


class AlreadyAccepted(MoveRefused):
    def __init__(self) -> None:
        super().__init__("This offer has already been accepted. Nothing more is needed.")


class SealedForGood(QuoteError):
    def __init__(self) -> None:
        super().__init__("A sealed proposal never changes.")
