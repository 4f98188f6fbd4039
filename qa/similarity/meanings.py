"""Everyday English words and phrases that speak of one thing, whatever a text is about.

The table is our own, from memory of common usage. Each line is a group; a word may be in several, as it may mean
several things or belong to a narrower and a wider one. The words of a group need not be able to stand for each other:
it is enough that whoever uses one may well be asking what another asks with the next. A phrase has marks between its
words.
"""

from __future__ import annotations

_GROUPS = """
buy purchase shopping acquire order
order booking purchase parcel package
cost price fee charge rate fare how_much pay expense pricing
fee charge surcharge commission cost extra_charge levy
cheap inexpensive affordable low budget bargain economical
expensive costly pricey dear high steep
pay payment paid settle transaction checkout
transaction payment purchase charge debit transfer statement_entry
money cash fund dollar euro pound buck currency coin note sum
refund reimburse repay money_back reimbursement give_back return_the_money compensate get_back
return send_back bring_back give_back take_back hand_back ship_back
lose lost miss misplace missing can_not_find disappear vanish gone
steal theft thief rob stolen pickpocket burglar mug
fraud scam fraudulent unauthorised unauthorized suspicious hack compromise phishing fake steal
break faulty damage defective crack smash shatter ruin dent tear scratch bent broken
not_work stop_work faulty defective malfunction fail break dead crash out_of_order broken bust
fix repair mend solve resolve sort_out troubleshoot restore patch service
wrong incorrect mistake error inaccurate false erroneous mix_up not_right
mistake accident accidental error oops slip by_mistake unintentional
problem issue trouble fault difficulty error bug glitch hiccup
fail unsuccessful decline reject refuse deny not_accept not_go_through not_allow
decline refuse reject deny turn_down not_accept
cancel abort undo revert reverse call_off stop revoke rescind annul withdraw
stop quit end cease terminate halt discontinue finish
start begin launch initiate commence open set_up
activate enable turn_on switch_on start unlock get_start
deactivate disable turn_off switch_off stop shut_off block
change alter modify edit update adjust amend correct switch revise
replace substitute swap exchange instead new_one another replacement alternative
convert exchange translate transform conversion rate turn_into
send transfer forward deliver ship mail post dispatch wire
deliver delivery ship shipping courier postage arrive transport shipment
parcel package box delivery shipment packet goods item
receive arrive come get obtain turn_up show_up reach delivered here deliver
not_receive never_come never_arrive never_receive not_arrive not_come still_wait not_get no_sign not_deliver not_show_up
wait pending delay late slow overdue hold still take_long stuck
pending processing in_progress not_complete on_hold wait await
late delay overdue tardy behind_schedule
fast quick soon speed hurry rush immediate urgent rapid express asap right_away instant prompt swift
time hour clock when long minute duration moment
how_long when how_many_day how_soon what_time time_frame timeframe duration estimate expect period
when what_time what_day which_day date how_soon
day date today daily
today tonight now current present this_morning
tomorrow next_day upcoming
yesterday last_night previous_day
week weekend weekday weekly monday tuesday wednesday thursday friday saturday sunday
month monthly january february march april june july august september october november december
year annual yearly
regular recurring repeat every weekly monthly automatic routine subscription
show display view see look_at check watch pull_up
find locate search where look_for discover seek
where place location located find whereabouts which_place
tell inform explain describe let_me_know say give_me mention share know
know information detail info learn about curious wonder
why reason cause how_come what_is_the_reason explain
how way method procedure process step manner means what_do_i_do
help assist support aid guide hand
need require must necessary have_to essential got_to
want wish desire like need_to would_like prefer keen looking_to
can able possible allow permit may let could
not_can unable not_let impossible fail_to not_able not_allow
allow permit eligible entitle right_to accept okay
create make produce prepare generate set_up compose build
use utilise utilize usage apply work_with spend redeem
add include insert put extra append attach top
remove delete erase discard get_rid take_off clear wipe take_out drop
increase raise boost more higher up rise bump
decrease reduce lower cut less drop shrink down
limit maximum max cap restriction allowance most ceiling how_many
minimum min least lowest
restriction limit restrict rule condition requirement
big large huge great giant enormous wide
small tiny mini little compact
same identical equal equivalent alike
twice double duplicate repeat two two_time again multiple
different differ difference distinct versus vs other compare not_same
country nation abroad overseas foreign international europe worldwide region global
place location spot area region site
near nearby close around closest local vicinity
shop store market supermarket mall retailer merchant seller branch outlet
house home flat apartment room residence
phone mobile cell telephone handset smartphone device
call ring phone dial telephone
number digit figure code id
picture photo image snapshot camera selfie
music song tune track album playlist artist band
movie film video cinema show
book novel read story author library
game play sport match
food meal dish cuisine eat dinner lunch breakfast snack
restaurant diner cafe eatery bar bistro pub takeaway
recipe cook bake prepare make ingredient
drink beverage water coffee tea juice wine beer
calorie nutrition fat protein sugar healthy diet carb
ingredient component contain consist made_of
weather forecast temperature climate outside
rain wet umbrella storm shower snow
hot warm heat boil
cold cool chill freeze ice
sunny clear sun bright
car vehicle automobile truck van drive
fuel gas petrol diesel tank mileage mpg
tire tyre wheel pressure
oil lubricant
road street route direction traffic highway way map
direction route way navigate map get_to directions
distance far mile kilometre kilometer how_far
trip travel journey vacation holiday abroad tour visit
plane flight fly airline airplane airport
luggage baggage suitcase bag carry-on carryon
train bus subway metro tram transit transport
taxi cab ride lift
hotel inn motel lodging accommodation room stay
reserve reservation book booking table appointment slot
visa passport travel_document permit
vaccine vaccination shot immunise immunize jab
job employment career position occupation profession
boss manager employer supervisor head
salary wage income pay paycheck payroll earning payday
work job office company business
company business firm corporate organisation organization enterprise
day_off leave vacation pto holiday time_off absence
doctor physician hospital clinic nurse dentist
ill sick unwell disease illness
medicine drug medication pill
insurance cover coverage policy benefit premium insure
tax taxes vat duty customs
kid child baby son daughter teenager minor age_limit
family wife husband mother father mum mom dad sister brother parent relative spouse partner
friend mate buddy colleague somebody_else
old age how_old young birthday
person human people agent representative operator real_person employee staff someone
someone somebody anyone anybody people person another_person else friend
verify confirm validate prove proof authenticate check identify verification
identity id identification passport licence license document who_i_am proof
check look see inspect examine review verify
password passcode code pin login credential secret
login log_in sign_in access password enter
log_out sign_out exit
name title called nickname surname
call_me name nickname address_me
account profile membership user
close delete terminate shut cancel_my_account leave get_rid
open create new start set_up apply
lock block disable suspend freeze frozen lock_out ban restrict
unlock unblock enable reactivate unfreeze restore activate
stuck trap jam retain
old previous former past earlier last used
new recent latest fresh brand_new another
next upcoming following future later soon
again twice repeat another once_more
extra additional another more further
unknown unfamiliar unrecognised unrecognized strange odd weird unexpected not_recognise not_recognize not_remember
safe secure safety security protect protection
danger dangerous unsafe harm risk hazard
happen occur go_on take_place
seem appear look
correct right proper accurate true
answer reply respond response get_back_to
ask question query inquire enquiry enquire
choose select pick option choice decide
suggest recommend advice advise tip recommendation idea
best top good rated favourite favorite
mean meaning definition define stand_for what_is explain
spell spelling letter
sum total amount quantity balance how_much
balance how_much_money left remaining available funds account_total
amount total sum how_much how_many quantity value
count number how_many
measure weigh weight size length height dimension how_big
measurement inch foot centimetre centimeter metre meter cup ounce gram kilo pound unit
free gratis complimentary no_charge no_cost without_charge
discount coupon voucher promo offer sale reduction deal code promotion special
taste flavor flavour
smell odor odour scent
color colour shade hue black white red blue green yellow
mix stir blend combine
finish complete done over
yes yeah yep sure correct affirmative ok okay absolutely
no nope nah negative never
maybe perhaps not_sure possibly unsure uncertain
thanks thank cheers appreciate grateful
hi hello hey greet good_morning good_evening
bye goodbye farewell see_you later
joke funny laugh humour humor
sorry apologise apologize apology regret
happy glad please_with satisfied delighted love
unhappy angry annoyed disappointed upset furious terrible complain dissatisfied awful bad unacceptable
bad poor awful terrible horrible worst
something anything stuff item product article goods thing
only just merely
often frequently frequent how_often regularly every
connect link attach pair sync join
register enroll enrol join subscribe sign_up apply
device equipment tool machine appliance gadget
computer laptop pc tablet
app application software program website site page online internet web
internet wifi network connection online
volume loud quiet sound mute speaker
speed faster slower pace
contact reach get_in_touch speak talk call phone
speak talk chat conversation converse
complain complaint dissatisfied feedback grievance
message text sms email mail letter notification
email mail e-mail inbox address
address street postcode house residence where_i_live live
move moved relocate new_address new_home
schedule calendar appointment meeting agenda event plan
meeting conference appointment call
remind reminder alarm alert notify notification
alarm wake timer clock
list todo to_do task note
approximate approximately roughly estimate rough
language tongue spanish french german english translate
learn study teach
birth born birthday date_of_birth
trash garbage rubbish waste bin
apartment flat house rent
bill invoice statement receipt charge
receipt invoice proof_of_purchase bill document
rent mortgage lease landlord
electricity power energy utility water
loan borrow lend debt owe credit installment finance
credit_score rating credit_rating
interest rate apr percent
bank banking branch account
card credit_card debit_card plastic bank_card
physical actual real plastic
virtual digital disposable temporary online
contactless tap wireless
atm cash_machine cashpoint withdraw withdrawal machine dispenser
withdraw withdrawal cash_out take_out take_money_out get_cash get_money
deposit pay_in put_in top_up add_money load credit fund transfer_in
top_up topup top_off top-up add_money add_fund reload recharge load refill
transfer send wire move remit bank_transfer transaction
recipient beneficiary payee receiver other_person
cheque check check_deposit checkbook chequebook
source origin where_from come_from
savings save saving retirement pension
invest investment stock share fund
roll_over rollover move transfer
credit_limit limit line_of_credit
exchange_rate rate conversion currency forex
currency dollar euro pound yen foreign_money gbp usd eur
point reward loyalty bonus mile benefit cashback
gift present voucher gift_card
expire expiration expiry valid run_out out_of_date good_until end
available stock in_stock availability left offer have
out_of_stock sold_out unavailable not_available gone
collect pick_up pickup fetch collection
track trace follow status tracking progress where_is
status progress update state how_is
warranty guarantee cover
size fit small large medium measurement
open hours opening close closing
join member membership subscribe subscription enrol
unsubscribe opt_out stop_send mailing_list newsletter spam advert marketing
assemble put_together build install installation set_up
install download set_up update upgrade
wrap gift_wrap package present
home_screen device_setting setting preference configure
light lamp bulb brightness
light dim brighten
vacuum clean sweep dust mop
wash clean laundry dishwasher
door lock garage window
temperature thermostat heat degree
forecast weather
joke fun fact trivia
purpose exist
robot bot ai computer machine real_person
pet dog cat animal
flip coin roll dice
calculator plus minus multiply divide add square_root math sum percent
timer countdown minute second
repeat say_again what_did_you_say pardon
whisper accent voice speak_slow
oven stove bake microwave
keep last store storage spoil go_bad shelf fresh expire
flour starch
sugar sweetener honey syrup
egg yolk white
butter margarine fat oil
bread loaf dough bun roll
cake muffin sponge cupcake
dry crumbly dense hard tough
wet sticky soggy gummy moist
rise risen puff fluffy
flat sink collapse fall deflate
thick thicken set gel
thin runny liquid watery
burn burnt scorch brown dark
raw uncooked undercooked underdone
bitter sour tangy acidic
vegan vegetarian plant-based
allergy allergic intolerant intolerance
accept take honour honor recognise recognize work_at use_at support
wallet purse
sent dispatch post on_the_way underway
automatic automate by_itself on_its_own regular
feature function capability ability
update refresh reflect sync up_to_date
someone_else somebody_else another_person other_people third_party stranger not_me
hack break_into compromise intruder breach leak
personal private detail profile data particulars
marry marriage wedding divorce maiden_name surname
spare second additional extra another backup
issue provide give supply offer grant
incoming inbound receive get credited paid_in
outgoing outbound send
revert bounce go_back come_back sent_back return
cash note bill coin banknote paper_money
insufficient not_enough lack short less low too_little
exceed more extra over higher greater too_much
full whole entire complete
part partial half some portion
photo selfie picture scan upload image
document paper paperwork form certificate
code pin passcode cvv digit security_code
try attempt keep_try test
continue keep constantly repeatedly always
recent lately just newly
normal usual typical general standard average
suppose should mean expect ought
agree accept consent approve
permission authorise authorize approve consent
prevent avoid stop
spend spending expenditure expense outgoings
history record log past statement
dispute challenge contest object chargeback claim
claim request demand file submit
fill complete enter write
enter type input key_in
click press tap hit push
pause hold suspend skip break
resume continue restart
postpone delay reschedule push_back move
meet join see visit
leave depart set_off exit go
arrive land arrival get_there reach
free available open
busy occupied booked
embassy consulate
adapter plug socket charger
battery charge power
forget forgot not_remember can_not_remember slip_my_mind
guess riddle game quiz
bored boring entertain fun
mood feel how_are_you how_you_do
real genuine authentic legit actual
fake counterfeit false
easy simple
hard difficult tough complicated
important significant essential critical
worry concern anxious afraid scared nervous
trust reliable safe legit
share joint together split
due deadline payable by_when pay_by
penalty late_fee fine
raise promotion increase
mechanic garage workshop repair
exercise workout gym fitness
sleep rest nap bed
clothes shirt dress trousers shoe jacket
furniture chair table sofa wardrobe bed
fridge refrigerator freezer
meat beef chicken pork fish
fruit vegetable apple banana
milk cheese dairy
neighbour neighbor
tv television channel
material fabric made_of
type kind sort category model version variety
quality standard
polite friendly nice
rude impolite unfriendly
crash freeze hang not_respond not_load not_open
reset restart reboot restore
default standard normal primary main
begin beginning first initial
last final end
left remaining rest left_over
everything all whole every
many several multiple numerous lot
few couple some
enough sufficient
never not_once
sometimes occasionally
sure certain
law legal regulation rule policy
contract agreement terms condition
optional voluntary
purpose goal aim
advantage benefit perk
disadvantage drawback downside
alternative instead other another
without lack no
both two pair
team group staff department
school class student college university homework
random any
sign signature
traffic jam congestion
accident crash collision
park parking parking_lot car_park
review rating opinion feedback star
ready done finish complete
trick tip advice
how_do_i how_can_i how_to how_would_i what_is_the_way what_step way
is_it_possible can_i could_i may_i am_i_able am_i_allow will_i_be_able
what_happen what_go_on why
do_you_have is_there are_there have_you_get offer available
tell_me let_me_know i_want_to_know i_would_like_to_know can_you_tell
please help need_help
"""

GROUPS = tuple(tuple(member.replace("_", " ") for member in line.split()) for line in _GROUPS.strip().splitlines())
