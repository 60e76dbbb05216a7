"""Sentences that are not of the trade: read aloud, told, asked, counted. The adapter is held to the plain model on them.

What the plain model writes for them is the target, so they need variety of words and sounds rather than sense. prose.txt
holds lines of works long in the public domain and of the Harvard sentences (IEEE 1969), from memory (mem).
"""

from __future__ import annotations

from pathlib import Path

from trade_sentences import R, c, card

PROSE = Path(__file__).with_name("prose.txt").read_text(encoding="utf-8").splitlines()
WHO = [
    "i",
    "we",
    "they",
    "he",
    "she",
    "you",
    "my brother",
    "the neighbour",
    "the old man",
    "somebody",
    "nobody",
    "the dog",
    "the crew",
    "the children",
    "my wife",
    "the driver",
    "the teacher",
    "her mother",
    "the doctor",
    "a stranger",
    "the captain",
    "the lady",
    "his cousin",
    "mister grey",
    "missus brown",
    "the judge",
    "the landlord",
    "a gentleman",
    "the young woman",
    "the colonel",
    "their aunt",
    "the farmer",
    "the widow",
    "a sailor",
    "the soldier",
    "the boy",
    "our friends",
    "the girl next door",
    "the parson",
    "her late husband",
    "the whole family",
    "the student",
    "the manager",
    "the nurse",
    "the pilot",
    "everyone",
]
DID = [
    "went home early",
    "came back after lunch",
    "forgot the keys again",
    "left the gate open",
    "looked tired this morning",
    "said it would rain",
    "brought coffee and bread",
    "wanted to know why",
    "couldn't find the road",
    "walked down to the river",
    "sat by the fire and talked",
    "read the letter twice",
    "lost the other glove",
    "had never seen the sea",
    "asked about the weather",
    "turned off the lights",
    "kept the door shut",
    "told a long story",
    "laughed at the idea",
    "waited for the train",
    "bought a new coat",
    "slept in the car",
    "found an old photograph",
    "cooked supper for everyone",
    "sang all the way home",
    "heard a strange noise",
    "thought it was funny",
    "didn't say anything",
    "took the wrong bag",
    "saw a fox behind the house",
    "wrote to the council",
    "called about the phone bill",
    "tried to start the truck",
    "gave the book back",
    "was by no means so clever",
    "had a great deal of good sense",
    "was never known to hurry",
    "spoke with perfect civility",
    "wished to be left in peace",
    "went over the accounts alone",
    "could not bear to be contradicted",
    "made a very handsome present",
    "felt the loss most severely",
    "had every reason to be satisfied",
    "lived in a very quiet manner",
    "desired nothing more than sleep",
    "might have been happier elsewhere",
    "was warmly attached to his own opinion",
    "received the news with composure",
    "played the piano very badly",
    "opened the window and listened",
    "promised to return before dark",
    "dropped the spoon on the stone floor",
    "carried the basket up the hill",
    "drew a picture of a horse",
    "fell asleep during the sermon",
    "paid no attention to the rules",
    "climbed over the wall",
    "studied law in the capital",
    "missed the last ferry",
    "counted the stars",
    "planted beans along the fence",
    "broke the silence at last",
    "refused to answer",
    "shook hands with the mayor",
    "complained about the soup",
    "changed the subject",
    "remembered every word",
    "quarrelled about the inheritance",
    "lit a candle and went upstairs",
    "bowed politely",
    "ordered a glass of wine",
    "packed the trunk in a hurry",
    "cleared the table",
    "believed the whole of it",
    "hated the noise of the city",
    "danced until midnight",
    "fixed the radio",
    "watched the game on television",
    "checked the email",
    "charged the phone",
    "updated the software",
    "parked behind the library",
    "pressed the button",
    "entered the password",
    "recorded the message",
    "hung up the phone",
    "spoke to the operator",
    "dialled the extension",
    "joined the conference",
]
WHEN = [
    "",
    "",
    "",
    "",
    "yesterday",
    "last night",
    "before breakfast",
    "in the end",
    "for a while",
    "after all",
    "when the sun came up",
    "because of the snow",
    "without a word",
    "on the way to town",
    "and that was that",
    "as far as i know",
    "if you ask me",
    "but it was too late",
    "just in case",
    "all the same",
    "while we were talking",
    "and then it started to rain",
    "this time of year",
    "the other day",
    "like always",
    "with great pleasure",
    "upon the death of his uncle",
    "in spite of everything",
    "rather against her will",
    "to the surprise of the company",
    "as soon as the bell rang",
    "under the circumstances",
    "with a heavy heart",
    "in the course of the evening",
    "at the end of the summer",
    "for the sake of his sisters",
    "according to the newspaper",
    "on the other side of the street",
    "more than anything in the world",
]
ASK = [
    "what time does the shop close",
    "where did you put the scissors",
    "how far is it to the station",
    "do you want milk or sugar",
    "could you turn that down a little",
    "who is that at the door",
    "why are you laughing",
    "have you ever been to the coast",
    "is there anything else i can help you with",
    "can i leave a message",
    "are you coming with us or not",
    "what on earth is that smell",
    "would you mind holding this",
    "did the mail come",
    "how do you spell that",
    "may i borrow your umbrella",
    "when is the next bus",
    "whose turn is it",
    "was it really so bad",
    "which way is north",
]
TELL = [
    "please enter your number and press the star key",
    "turn left at the second light",
    "go straight on past the church",
    "stir the sauce and let it cool",
    "do not open this before christmas",
    "hold the line please",
    "say it again more slowly",
    "keep to the right",
    "put the book back on the shelf",
    "look at me",
    "come here and sit down",
    "stand up straight",
    "open the file and read it aloud",
    "stop at the corner",
    "thank you very much",
    "good morning everyone",
    "happy birthday",
    "you're welcome",
    "never mind",
    "no thank you",
    "yes of course",
    "hello",
    "goodbye",
    "i don't think so",
    "that's enough",
    "all right then",
    "i beg your pardon",
    "not at all",
    "one moment please",
    "it doesn't matter",
    "that will be all",
    "try again later",
]
THINGS = [
    "apples",
    "letters",
    "horses",
    "people",
    "chairs",
    "windows",
    "pages",
    "pictures",
    "stamps",
    "students",
    "miles",
    "minutes",
    "eggs",
    "sheep",
    "candles",
    "votes",
    "passengers",
    "calls",
    "messages",
    "songs",
    "degrees",
    "years",
    "days",
    "weeks",
    "pounds",
    "points",
    "houses",
    "soldiers",
    "seats",
    "languages",
]
HOURS = ("o'clock", "thirty", "fifteen", "forty five")
MONTHS = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
]


def told() -> str:
    """Somebody did something, and perhaps somebody else something else."""
    first = f"{c(*WHO)} {c(*DID)}"
    return c(
        f"{first} {c(*WHEN)}",
        f"{first} and {c(*WHO)} {c(*DID)}",
        f"{c('when', 'because', 'although', 'unless', 'after', 'as')} {first} {c(*WHO)} {c(*DID)} {c(*WHEN)}",
        f"{c(*WHO)} said that {first} {c(*WHEN)}",
        f"had {first} {c('earlier', 'sooner', 'at once')} {c(*WHO)} would have been {c('pleased', 'sorry', 'surprised', 'very much obliged', 'in a better temper')}",
    )


def said() -> str:
    """A question or something said to somebody."""
    return c(c(*ASK), c(*TELL), f"{c(*TELL)} {c(*WHEN)}", f"{c(*WHO)} asked {c(*ASK)}")


def counted() -> str:
    """Figures as they come outside the trade: bare, in dates, ages, times, telephone numbers."""
    digits = [card(R.randrange(10)) for _ in range(R.randrange(2, 8))]
    numbers = [card(R.choice([R.randrange(1, 20), R.randrange(20, 100)])) for _ in range(R.randrange(1, 6))]
    return c(
        " ".join(digits),
        " ".join(numbers),
        f"{card(R.randrange(2, 300))} {c(*THINGS)}",
        f"{c(*WHO)} {c(*DID)} {card(R.randrange(2, 60))} {c('times', 'days ago', 'years ago', 'minutes later')}",
        f"on the {R.choice(['first', 'second', 'fourth', 'ninth', 'twelfth', 'twentieth', 'thirty first'])} of {c(*MONTHS)} {c('eighteen', 'nineteen', 'twenty')} {card(R.randrange(10, 100))}",
        f"at {card(R.randrange(1, 13))} {c(*HOURS)} {c('in the morning', 'tonight', 'sharp')}",
        f"{c('flight', 'room', 'chapter', 'page', 'bus', 'extension', 'number')} {card(R.randrange(1, 600))}",
        f"{c(*WHO)} was {card(R.randrange(3, 98))} years old",
    )


def beside_a_figure() -> str:
    """A figure and an ordinary word beside it, one such pair or several."""

    def pair() -> str:
        n = card(R.choice([R.randrange(1, 11), R.randrange(2, 30), R.randrange(20, 100)]))
        thing = c(*THINGS)
        return c(
            f"{n} of {thing}",
            f"{n} of {c('them', 'us', 'the', 'my', 'his', 'these', 'our')} {thing}",
            f"{n} {thing}",
            f"{n} {c('old', 'little', 'new', 'strange', 'good', 'empty', 'quiet', 'other', 'more')} {thing}",
            f"{c('ten', 'the queen', 'the king', 'a pair', 'the last', 'none', 'some', 'one', 'all', 'the first')} of {thing}",
            f"{n} {c('or', 'and', 'times', 'against', 'to', 'out of', 'from', 'go to', 'with')} {card(R.randrange(2, 30))}",
            f"{c('go', 'walk', 'turn', 'press', 'count', 'take', 'wait', 'read', 'say')} {n} {thing}",
        )

    return " ".join(pair() for _ in range(R.choice([1, 2, 2, 3])))


def prose() -> str:
    """A line of the prose, or two clauses out of it put together."""
    line = R.choice(PROSE)
    if R.random() < 0.4:
        return line
    clauses = [clause for text in R.sample(PROSE, 2) for clause in text.replace(";", ",").split(",")]
    return " ".join(R.sample(clauses, min(2, len(clauses))))


PLAIN = [(told, 35), (said, 15), (counted, 15), (beside_a_figure, 20), (prose, 20)]
