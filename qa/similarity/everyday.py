"""Everyday English words that belong together whatever a text is about: irregular forms, and words of one meaning.

Both tables are our own, from memory of common usage; each line is a group, led by the word that stands for it.
"""

from __future__ import annotations

# Forms that no rule for endings brings together.
_FORMS = """
be am is are was were been being 's 're 'm
have has had having 've
do does did done doing
go goes went gone going
get gets got gotten getting
make makes made making
take takes took taken taking
give gave given giving
come came coming
see saw seen
say said
tell told
know knew known
think thought
find found
lose lost losing
pay paid
send sent
spend spent
buy bought
sell sold
bring brought
keep kept
leave left leaving
feel felt
hold held
stand stood
understand understood
write wrote written writing
speak spoke spoken
break broke broken
choose chose chosen choosing
steal stole stolen
forget forgot forgotten
eat ate eaten
drink drank drunk
drive drove driven driving
fly flew flown
begin began begun
run ran
grow grew grown
throw threw thrown
show shown
wear wore worn
build built
mean meant
meet met
hear heard
sleep slept
teach taught
catch caught
fall fell fallen
rise rose risen rising
set setting
put putting
will 'll would 'd
can could
child children
man men
woman women
foot feet
tooth teeth
good better best
bad worse worst
many much more most
little less least
far further
i me my mine myself
you your yours u ur
we us our ours
he him his
she her hers
they them their theirs
"""

# Words that people use for the same thing when they ask; a group's words need not be able to stand for each other.
_MEANINGS = """
buy purchase
cost price fee charge rate fare
cheap inexpensive affordable
expensive costly pricey dear
pay payment
money cash fund
refund reimburse repay
lose miss misplace
steal theft thief rob
break faulty damage defective crack
fix repair mend solve resolve
wrong incorrect mistake error inaccurate
problem issue trouble fault
fail unsuccessful decline reject refuse deny
cancel abort undo revert reverse
stop quit end cease terminate
start begin launch initiate
change alter modify edit update adjust amend
swap replace substitute exchange instead
convert translate transform
send transfer forward deliver ship mail
receive arrive come get obtain
wait pending delay late slow
fast quick soon speed hurry rush immediate urgent
time hour clock when
day date today
show display view see
find locate search where
tell inform explain describe
why reason cause
how way method procedure process
help assist support aid
need require must necessary
want wish desire
can able possible allow permit
create produce prepare
use utilise utilize usage
add include insert
remove delete erase discard
increase raise boost
decrease reduce lower cut
limit maximum max cap
minimum min
big large huge
small tiny mini
same identical equal
different differ difference distinct versus vs
country nation abroad overseas foreign international
place location spot area region
near nearby close around
shop store market
house home
phone mobile cell telephone handset smartphone
picture photo image
music song tune
movie film
food meal dish
restaurant diner cafe
weather forecast
rain wet
hot warm heat
cold cool chill freeze
car vehicle automobile
trip travel journey vacation holiday
plane flight fly airline airplane
reserve reservation book
job employment career
boss manager employer
salary wage income
doctor physician
ill sick unwell
medicine drug medication
kid child baby
check verify confirm validate prove proof
password passcode code pin
name title
lock block disable suspend
unlock unblock enable activate reactivate
old previous former past earlier
new recent latest
next upcoming following future
again twice double duplicate repeat
extra additional another
unknown unfamiliar unrecognised unrecognized strange odd weird unexpected
safe secure safety security protect
danger dangerous unsafe harm risk hazard
happen occur
seem appear
correct right proper accurate
answer reply respond response
ask question query
choose select pick option choice
suggest recommend advice advise
mean meaning definition define
sum total amount quantity
count number
measure weigh weight
free gratis complimentary
taste flavor flavour
smell odor odour scent
color colour shade hue
mix stir blend combine
finish complete
yes yeah yep sure
no nope nah
thanks thank cheers appreciate
hi hello hey greet
bye goodbye farewell
joke funny laugh
someone somebody anyone anybody people person
thing something anything stuff item
maybe perhaps
only just merely
often frequently
connect link attach
register enroll enrol join subscribe
machine device equipment tool
contact reach
complain complaint
schedule calendar appointment meeting agenda
remind reminder alarm alert notify notification
approximate approximately about roughly
talk chat
language tongue
learn study
birth born birthday
gas petrol fuel
trash garbage rubbish waste
apartment flat
bill invoice statement
loan borrow lend
debt owe
"""


def _leaders(groups: str) -> dict[str, str]:
    """Each word of each group with the first of its group."""
    return {word: line.split()[0] for line in groups.strip().splitlines() for word in line.split()}


FORMS = _leaders(_FORMS)
MEANINGS = _leaders(_MEANINGS)
