"""General English words of a salon's office, by what they mean; alternatives stand between bars."""

# Columns that mean the same in every table that has them.
COMMON = {
    "booking_id": "Booking ID | Booking no | Booking ref | Booking reference | Appointment ID | Appointment no | "
    "Appt no | Appt ID | Appointment ref | Appointment reference | Visit ID | Visit no | Reservation no | "
    "Reservation ID | Visit ref",
    "client_id": "Client ID | Client no | Client code | Customer ID | Customer no | Customer code | Guest ID | "
    "Guest no",
    "client": "Client | Customer | Guest | Client name | Customer name | Guest name | Name of client | Full name",
    "stylist": "Stylist | Hairdresser | Colourist | Colorist | Employee | Staff | Staff member | Team member | "
    "Stylist name | Employee name | Operator | Served by",
    "chair": "Chair | Chair no | Styling chair | Styling station | Station | Workstation | Seat | Seat no",
    "service_id": "Service ID | Service no | Service code | Treatment ID | Treatment no | Treatment code | "
    "Menu code | Menu no",
    "service": "Service | Treatment | Service name | Treatment name",
    "product_id": "Product ID | Product no | Product code | Item ID | Item no | Item code | Article no | Article code",
    "product": "Product | Product name | Item | Item name | Article | Article name",
    "discount": "Discount | Money off | Discount amount | Reduction | Price reduction | Discount given",
    "tip": "Tip | Tips | Gratuity | Tip amount",
    "tax_rate": "VAT % | VAT rate | VAT percentage | Tax rate | Tax % | Tax percentage | Sales tax % | "
    "Sales tax rate | GST % | GST rate",
    "valid_from": "Valid from | Valid since | Valid as of | Effective from | Effective date | In force from | "
    "From date | Date from",
    "site": "Branch | Salon | Site | Branch name | Salon name",
    "time": "Time | Time of day | Clock time",
}

PARTICULAR = {
    "bookings": {
        "line": "Line no | Booking line | Line number",
        "starts_at": "Date and time | Date time | Date & time | Starts at | Start date and time | Start date time | "
        "Appointment date and time",
        "ends_at": "Ends at | Finished at | End date and time | End date time",
        "day": "Date | Appointment date | Date of appointment | Visit date | Date of visit",
        "start_time": "Start time | Starting time | Time of start | Time | Appointment time | Begin time | "
        "Time from | Time in",
        "end_time": "End time | Ending time | Finish time | Time of end | Time to | Time until | Time out",
        "minutes": "Duration | Duration in minutes | Minutes | Length in minutes | Appointment length | "
        "Appointment duration | Length of appointment | Time booked (minutes) | Booked minutes | Minutes booked",
        "status": "Status | State | Appointment status | Booking status | Outcome",
        "price": "Price | List price | Service price | Full price | Price before discount | Price charged",
        "booked_on": "Booked on | Date booked | Booked at | Booking made on | Date of booking made | Booking taken on",
        "regrowth_mm": "Regrowth | Root regrowth | Regrowth mm | Measured regrowth | Regrowth measured",
        "stylist": "Done by | Carried out by | Performed by",
    },
    "services": {
        "service": "Name | Service description | Name of service",
        "kind": "Kind | Type | Category | Service type | Service kind | Service category | Type of service | "
        "Treatment type",
        "price": "Price | List price | Service price | Menu price",
        "hands_on_min": "Hands-on time | Hands-on minutes | Working time | Active time | Active minutes | "
        "Work minutes | Working minutes",
        "processing_min": "Processing time | Development time | Developing time | Processing minutes | "
        "Development minutes | Processing | Exposure time | Developing minutes",
        "resets_roots": "Resets roots | Colours roots | Colors roots | Covers roots | Resets regrowth | "
        "Roots covered | Roots coloured",
    },
    "product_log": {
        "logged_at": "Date | Date and time | Date time | Date mixed | Mixed on | Mixed at | Mixing date | "
        "Logged at | Date and time mixed | Date of mixing",
        "stylist": "Mixed by",
        "mixed_g": "Mixed | Amount mixed | Quantity mixed | Mixed amount | Mixed quantity | Grams mixed | "
        "Mixed grams | Amount (g) | Quantity (g) | Weight mixed",
        "left_g": "Left | Left over | Leftover | Remaining | Remainder | Grams left | Amount left | "
        "Amount left over | Left in bowl | Residue | Leftover amount",
        "time": "Time mixed",
    },
    "products": {
        "product": "Name",
        "kind": "Kind | Type | Category | Product type | Product kind | Product category | Product group | Used as",
        "pack_g": "Pack size (g) | Package size (g) | Pack content (g) | Contents (g) | Content (g) | "
        "Net weight (g) | Pack weight | Pack weight (g) | Grams per pack | Size (g) | Net content (g)",
        "pack_cost": "Pack cost | Cost per pack | Purchase price | Cost price | Buying price | Pack cost excl VAT | "
        "Net purchase price | Net cost | Purchase cost | Purchase price per pack",
        "strength_percent": "Strength | Peroxide | Strength % | Peroxide % | Peroxide strength | Concentration | "
        "Hydrogen peroxide | H2O2 | H2O2 strength | Percentage H2O2",
    },
    "clients": {
        "client": "Name",
        "phone": "Phone | Telephone | Phone no | Telephone no | Mobile | Mobile no | Mobile phone | Cell phone | "
        "Tel | Tel no",
        "email": "Email | Email address | Mail address | Mail",
        "may_contact": "May contact | May be contacted | Contact allowed | Contact permission | Consent to contact | "
        "Marketing consent | Permission to contact | May we contact | OK to contact | Contact OK | Can be contacted",
        "natural_level": "Natural level | Natural depth | Base level | Natural base",
        "target_level": "Target level | Wanted level | Desired level | Target depth | Desired depth | Wanted depth",
        "grey_share": "Grey share | Gray share | Share of grey | Share of gray | Grey % | Gray % | Percentage grey | "
        "Grey percentage | Percentage of grey | Gray percentage",
        "patch_tested_on": "Patch test | Patch test date | Date of patch test | Patch tested on | Last patch test | "
        "Skin test | Skin test date | Date of skin test | Allergy test date | Date of last patch test | "
        "Last skin test",
    },
    "payments": {
        "paid_at": "Date | Date and time | Date time | Paid at | Paid on | Payment date | Date paid | Date of payment",
        "method": "Method | Payment method | Payment type | Method of payment | Type of payment | Means of payment | "
        "Paid by | Paid with | How paid",
        "amount": "Amount | Amount paid | Payment amount | Paid amount | Amount received",
        "fee": "Fee | Fees | Payment fee | Transaction fee | Transaction cost | Card fee",
        "time": "Payment time | Time of payment | Time paid",
        "purpose": "Purpose | Payment for | Paid for | Payment purpose",
        "voucher": "Voucher no | Voucher number | Voucher code | Gift voucher no | Gift card no",
    },
    "sales": {
        "sold_at": "Date | Date and time | Date time | Sold at | Sold on | Sale date | Date sold | Date of sale",
        "quantity": "Quantity | Qty | Pieces | Units | Quantity sold | Qty sold | Units sold | No of units",
        "price": "Price | Unit price | Price per unit | Price per piece | Price each | Selling price | Retail price",
        "stylist": "Sold by | Seller | Salesperson",
        "time": "Time of sale | Sale time | Time sold",
    },
    "stock_moves": {
        "moved_at": "Date | Date and time | Date time | Moved at | Moved on | Movement date | Date of movement | "
        "Date moved",
        "movement": "Movement | Movement type | Type of movement | Kind of movement | Stock movement | What happened",
        "packs": "Packs | Packages | Units | Pieces | Number of packs | No of packs | Quantity (pcs) | Qty (pcs)",
        "grams": "Grams | Weight | Weight (g) | Quantity (g) | Amount (g)",
        "unit_cost": "Unit cost | Cost per pack | Cost per unit | Purchase price | Unit purchase price | "
        "Cost price | Purchase price per pack | Price per pack",
        "expires_on": "Expires on | Expiry date | Expiration date | Best before | Use by | Use by date | Expires",
    },
    "vouchers": {
        "number": "Voucher | Voucher no | Voucher number | Voucher code | Gift voucher no | Gift card no | Card no",
        "sold_on": "Sold on | Date sold | Issued on | Issue date | Date of issue | Sale date",
        "face": "Face value | Face | Nominal value | Voucher value | Value",
        "paid": "Paid | Amount paid | Price paid | Sold for | Price",
        "expires_on": "Expires on | Expiry date | Expiration date | Expires | Valid until | Valid to",
        "used": "Used | Used so far | Amount used | Redeemed | Spent",
    },
}

# Words that stand for a column only where no other heading does, as each can mean something else beside one.
STAND_INS = {
    "day": "Day",
    "amount": "Amount",
    "booked": "Booking date | Date of booking | Reservation date",
    "description": "Description",
}

# Words for the start and end of a booking: with the day in a column apart they are times, without it moments.
STARTS = "Start | Begin | Beginning | From | Appointment start | Start of appointment | Visit start"
ENDS = "End | Finish | Until | To | Appointment end | End of appointment | Visit end"
HALF_NAMES = "First name | Last name | Surname | Family name | Given name | Forename"
# A sheet with one of these is about buying, not about clients, sales or takings, whatever else it says.
BUYING = "Supplier | Vendor | Purchase order | Purchases | Orders | Suppliers"

VALUES = {
    "status": {
        "completed": "completed | complete | done | finished | attended",
        "booked": "booked | confirmed | scheduled | planned | upcoming | reserved",
        "cancelled": "cancelled | canceled | called off | cancelled by client | cancelled by customer",
        "no_show": "no-show | noshow | did not attend | not attended | did not show | did not come | not shown up | "
        "missed",
    },
    "services.kind": {
        "root_touch_up": "root touch-up | roots touch-up | root touch up | roots | root colour | root color | "
        "regrowth | regrowth colour | regrowth color | root retouch",
        "full_colour": "full colour | full color | all-over colour | all-over color | whole head colour | "
        "full head colour | full head color | global colour | global color",
        "lightening": "lightening | highlights | bleach | bleaching | foils | balayage | full bleach | babylights",
        "toner": "toner | toning | gloss | glossing",
        "cut": "cut | haircut | cutting | hair cut",
        "styling": "styling | blow-dry | blow dry | blowdry | blow out | updo | finish",
        "treatment": "treatment | hair treatment | care | hair care | conditioning treatment | mask",
        "other": "other | others | miscellaneous",
    },
    "products.kind": {
        "colour": "colour | color | hair colour | hair color | dye | hair dye | tint",
        "developer": "developer | peroxide | oxidant | oxidiser | oxidizer | hydrogen peroxide",
        "lightener": "lightener | bleach | bleaching powder | lightening powder | bleach powder",
        "additive": "additive | additives",
        "retail": "retail | for sale | resale | retail product",
    },
    "purpose": {
        "visit": "visit | appointment | service | services",
        "deposit": "deposit | down payment | prepayment | advance",
        "voucher": "voucher sold | voucher sale | gift voucher sold | voucher",
    },
    "method": {
        "cash": "cash",
        "card": "card | debit card | credit card | bank card | card payment | debit | credit card payment",
        "bank": "bank | bank transfer | transfer | wire transfer | wire | direct debit",
        "voucher": "voucher | gift voucher | gift card | gift certificate",
        "other": "other | others",
    },
    "movement": {
        "delivery": "delivery | delivered | received | goods received | goods in | receipt of goods",
        "count": "count | stock count | stocktake | stock take | counted | inventory count | stocktaking",
        "returned": "returned | return | sent back | return to supplier",
        "discarded": "discarded | thrown away | disposed | disposed of | wasted | waste | binned",
    },
    "yes_no": {"yes": "yes | y | true | 1", "no": "no | n | false | 0"},
}

TOTALS = "total | totals | subtotal | sub-total | grand total | sum | sum total | overall total"

TABLES = {
    "bookings": "booking | bookings | appointment | appointments | visits | diary",
    "services": "service menu | services | menu | price list | treatments",
    "product_log": "product log | colour log | color log | mixing log | mix log | bowls | mixing record | mixing",
    "products": "products | product list | articles",
    "clients": "client list | clients | customers | guests | customer list",
    "payments": "payment | payments | takings | till",
    "sales": "sale | sales | retail",
    "stock_moves": "stock moves | stock | inventory | stock movements | deliveries | stocktake",
    "vouchers": "vouchers | voucher | gift vouchers | gift cards | register of vouchers",
}
