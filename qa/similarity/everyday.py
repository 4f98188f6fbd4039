"""Irregular forms of everyday English words.

The table is our own, from memory of common usage; each line is a group, led by the word that stands for it.
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
sink sank sunk sunken
shrink shrank shrunk shrunken
freeze froze frozen freezing
stick stuck
burn burnt
tear tore torn
beat beaten
weep wept
swell swollen
spin spun
wind wound
bind bound
bite bit bitten
hide hid hidden
ride rode ridden
ring rang rung
swim swam swum
shake shook shaken
dig dug
sweep swept
bend bent
lend lent
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

# Each form with the first of its group.
FORMS = {word: line.split()[0] for line in _FORMS.strip().splitlines() for word in line.split()}
