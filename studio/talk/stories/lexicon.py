"""What the words of a story do: which verbs bring something, which take it away, and which words join a sentence."""

from __future__ import annotations

from functools import lru_cache

GAINS = frozenset(
    "find buy get receive win earn make bake pick collect catch gather grow plant add borrow build draw save "
    "purchase adopt score order cook prepare knit paint harvest bring obtain discover dig raise produce create "
    "fetch grab pull choose download pile stack hatch born sew craft print gain acquire record film lay weave "
    "stick invite enrol enroll hire load pour fill reach land spot see hear notice count learn read memorize pack "
    "wash take".split()
)
"""Their subject has more afterwards ("she found two"). Where the subject is the number, it is what comes."""

LOSSES = frozenset(
    "eat give lose sell use spend break drop throw drink donate pop burn cut delete remove send mail trade lend "
    "loan pay share hide crack rip tear toss discard release feed forget sharpen serve deliver waste erase "
    "recycle hand pass melt die wilt rot crash fall escape disappear vanish leave depart exit quit sink burst "
    "spoil nibble munch gobble swallow snap smash shed bury scatter subtract shave trim withdraw bite steal scare "
    "finish slip spill perish chop drain collapse retire graduate puncture misplace sacrifice shoot fire kill "
    "destroy ruin damage chase crunch gulp slurp".split()
)
"""Their subject has fewer afterwards ("she ate two"). Where the subject is the number, it is what goes."""

COMES = frozenset("come join arrive land return enter appear hatch visit follow show gather board".split())
"""Where the number is their subject, there are more afterwards."""

MOVES = frozenset(
    "go fly swim hop jump walk run crawl climb dive slide skip leap wander ride drive move drift float paddle "
    "waddle splash roll hike race march scamper scurry sail trot get step hurry bounce wade creep flutter glide "
    "head stroll plop scramble dash tumble wriggle slither sneak set travel blow bound rush toddle gallop flit zip zoom whizz "
    "swoop shuffle tiptoe trundle".split()
)
"""Whether there are more or fewer afterwards is told by where to: "hop on", "hop off"."""

STATES = frozenset(
    "have be own hold contain keep need want sit stand rest sleep live play stay lie wait nap swim float work "
    "grow bark hang weigh weight cost measure last wear carry like know sing bask perch doze watch remain nest "
    "sunbathe soak possess study share start begin read look".split()
)
"""What is, not what happens. A verb may be here and above: then the words around it decide."""

OTHER_VERBS = frozenset(
    "put place do can could will would might must ask tell say think help clean order decide try turn let call "
    "stop plan walk attend visit park sit recite ride sharpen change open close light wake shine clear practise "
    "practice teach lift push tie hit kick bend spread cover complete write type enjoy love hope sort solve "
    "answer jog line eat like wish feel rain snow happen become exercise talk dance cheer smile laugh rent drain "
    "seem mean match".split()
)

_IRREGULAR = {
    "find": "found", "buy": "bought", "get": "got gotten", "win": "won", "make": "made", "catch": "caught",
    "grow": "grew grown", "build": "built", "draw": "drew drawn", "bring": "brought", "dig": "dug",
    "choose": "chose chosen", "lay": "laid", "weave": "wove woven", "stick": "stuck", "hear": "heard",
    "see": "saw seen", "learn": "learnt", "take": "took taken", "eat": "ate eaten", "give": "gave given",
    "lose": "lost", "sell": "sold", "spend": "spent", "break": "broke broken", "throw": "threw thrown",
    "drink": "drank drunk", "burn": "burnt", "cut": "cut", "send": "sent", "lend": "lent", "pay": "paid",
    "hide": "hid hidden", "rip": "ripped", "tear": "tore torn", "feed": "fed", "forget": "forgot forgotten",
    "fall": "fell fallen", "leave": "left", "quit": "quit", "sink": "sank sunk", "burst": "burst", "spoil": "spoilt",
    "bite": "bit bitten", "steal": "stole stolen", "come": "came", "go": "went gone", "fly": "flew flown flies",
    "swim": "swam swum", "run": "ran", "dive": "dove", "slide": "slid", "leap": "leapt", "ride": "rode ridden",
    "drive": "drove driven", "creep": "crept", "set": "set", "blow": "blew blown", "have": "has had having",
    "be": "is are was were been being am", "hold": "held", "keep": "kept", "sit": "sat", "stand": "stood",
    "sleep": "slept", "lie": "lay lain lying", "wear": "wore worn", "know": "knew known", "sing": "sang sung",
    "begin": "began begun", "put": "put", "do": "does did done", "tell": "told", "say": "said", "think": "thought",
    "let": "let", "wake": "woke woken", "shine": "shone", "teach": "taught", "hit": "hit", "bend": "bent",
    "spread": "spread", "write": "wrote written", "feel": "felt", "become": "became", "die": "died dying dies",
    "withdraw": "withdrew withdrawn", "born": "born", "shed": "shed", "shoot": "shot", "hang": "hung",
    "sew": "sewed sewn", "read": "read", "light": "lit", "mean": "meant", "tie": "tied tying", "hop": "hops",
    "shave": "shaven", "saw": "sawed",
}  # fmt: skip

_NO_DOUBLING = frozenset("w x y".split())
_VOWELS = "aeiou"


def _forms(base: str) -> set[str]:
    """The regular forms of a verb; a form too many does no harm."""
    found = {base, base + "s", base + "ed", base + "ing"}
    if base.endswith("e"):
        found |= {base + "d", base[:-1] + "ing"}
    if base.endswith("y") and base[-2:-1] not in _VOWELS:
        found |= {base[:-1] + "ies", base[:-1] + "ied"}
    if base.endswith(("s", "sh", "ch", "x", "z", "o")):
        found.add(base + "es")
    if len(base) > 2 and base[-1] not in _VOWELS and base[-1] not in _NO_DOUBLING and base[-2] in _VOWELS:
        found |= {base + base[-1] + "ed", base + base[-1] + "ing"}
    return found


def _table() -> dict[str, str]:
    table: dict[str, str] = {}
    for base in sorted(GAINS | LOSSES | COMES | MOVES | STATES | OTHER_VERBS):
        for form in _forms(base):
            table.setdefault(form, base)
    for base, forms in _IRREGULAR.items():
        for form in forms.split():
            table[form] = base
    return table


VERBS = _table()
"""From each form of a verb to its base form."""

BE = frozenset("is are was were be been being am 's".split())
HAVE = frozenset("have has had having".split())
AUXILIARIES = BE | HAVE | frozenset("do does did will would can could should shall may might must".split())

PREPOSITIONS = frozenset(
    "in on at of to from with for by under near into onto off out over up down away around across through along "
    "during since till behind beside between above below inside outside among than as per about against upon".split()
)
CONJUNCTIONS = frozenset("and but then if after when before while because so until once whereas although".split())
PRONOUNS = frozenset(
    "i you he she it they we him her them us me who which that this these those there himself herself themselves "
    "someone everyone somebody".split()
)
DETERMINERS = frozenset("the a an his her its their my your our this that these those each every both all".split())
ADVERBS = frozenset(
    "now then later today yesterday still only already also too first again soon next just always together altogether "
    "more extra additional less fewer another other others left even quietly suddenly finally away not never "
    "please maybe so far total once back already there here ever yet almost really very".split()
)
DAYS = frozenset("today yesterday tomorrow tonight".split())
FUNCTION_WORDS = AUXILIARIES | PREPOSITIONS | CONJUNCTIONS | PRONOUNS | DETERMINERS | ADVERBS

OUTWARD = frozenset("away off out home down from elsewhere outside under".split())
INWARD = frozenset("on onto in into over up by along to inside together back across beside".split())

MEASURES = {
    "time": frozenset("minute hour day week month year second time o'clock a.m p.m".split()),
    "money": frozenset("cent dollar penny nickel dime quarter pound coin".split()),
}
SETTINGS = frozenset("minute hour day week month year second o'clock a.m p.m am pm grade".split())
"""Units of time: such a number sets the scene unless time is asked for."""

DRAWING = frozenset(
    "dot cross tally mark ten one number part whole frame ring circle square line bond sentence card finger space "
    "counter bead row column hop jump step digit numeral fact double partner addend hundred stroke die dice bead "
    "picture drawing story problem question answer way thing lesson column total sum time".split()
)
"""What a lesson counts while it draws. A sentence about these is talk and no story."""

_PLURALS = {
    "geese": "goose", "mice": "mouse", "children": "child", "people": "person", "men": "man", "women": "woman",
    "feet": "foot", "teeth": "tooth", "leaves": "leaf", "loaves": "loaf", "wolves": "wolf", "shelves": "shelf",
    "knives": "knife", "lives": "life", "calves": "calf", "halves": "half", "scarves": "scarf", "fish": "fish",
    "sheep": "sheep", "deer": "deer", "salmon": "salmon", "moose": "moose", "trout": "trout", "grass": "grass",
    "glass": "glass", "bus": "bus", "gas": "gas", "class": "class", "dress": "dress", "octopus": "octopus",
    "cookies": "cookie", "movies": "movie", "pies": "pie", "ties": "tie", "shoes": "shoe", "toes": "toe",
    "pence": "penny", "brownies": "brownie", "calories": "calorie", "zombies": "zombie", "this": "this",
    "dragonflies": "dragonfly", "oxen": "ox", "dice": "die",
}  # fmt: skip
SAME_IN_PLURAL = frozenset("fish sheep deer salmon trout moose tadpoles squid shrimp".split())


@lru_cache(maxsize=4096)
def singular(noun: str) -> str:
    """A noun without its plural ending ("geese" is "goose"); possessives lose their "'s"."""
    noun = noun.removesuffix("'s").removesuffix("’s").removesuffix("'").removesuffix("’")
    if (known := _PLURALS.get(noun)) is not None:
        return known
    if len(noun) < 4 or not noun.endswith("s") or noun.endswith(("ss", "us", "is")):
        return noun
    if noun.endswith("ies"):
        return noun[:-3] + "y"
    if noun.endswith(("ches", "shes", "xes", "sses", "zes", "oes")):
        return noun[:-2]
    return noun[:-1]


def is_plural(noun: str) -> bool:
    """Whether a noun looks like more than one."""
    return noun in SAME_IN_PLURAL or (singular(noun) != noun and not noun.endswith(("'s", "’s")))
