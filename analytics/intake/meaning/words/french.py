"""General French words of a salon's office, by what they mean; alternatives stand between bars."""

# Columns that mean the same in every table that has them.
COMMON = {
    "booking_id": "Numéro de rendez-vous | N° rendez-vous | N° RDV | Numéro RDV | ID rendez-vous | ID RDV | "
    "Réf rendez-vous | Référence du rendez-vous | Numéro de réservation | N° réservation | ID réservation | "
    "N° de visite | Numéro de visite",
    "client_id": "Numéro client | Numéro de client | N° client | N° cliente | Numéro cliente | ID client | "
    "ID cliente | Code client | Référence client | Réf client",
    "client": "Client | Cliente | Nom du client | Nom de la cliente | Nom client | Nom cliente | Client/cliente | "
    "Client(e) | Nom complet | Nom et prénom | Prénom et nom",
    "stylist": "Coiffeur | Coiffeuse | Coiffeur/coiffeuse | Coloriste | Employé | Employée | Collaborateur | "
    "Collaboratrice | Styliste | Membre de l'équipe | Réalisé par | Effectué par",
    "chair": "Fauteuil | N° fauteuil | Numéro de fauteuil | Poste de coiffage",
    "service_id": "Numéro de prestation | N° prestation | Code prestation | ID prestation | Réf prestation | "
    "Numéro de service | Code service | ID service",
    "service": "Prestation | Service | Soin | Nom de la prestation | Nom prestation | Intitulé de la prestation | "
    "Libellé prestation | Libellé de la prestation",
    "product_id": "Numéro de produit | N° produit | Code produit | ID produit | Réf produit | Référence produit | "
    "Numéro d'article | N° article | Code article | ID article | Réf article | Référence article",
    "product": "Produit | Nom du produit | Nom produit | Article | Nom de l'article | Désignation du produit",
    "discount": "Remise | Réduction | Rabais | Montant de la remise | Montant remise | Ristourne",
    "tip": "Pourboire | Pourboires",
    "tax_rate": "TVA % | Taux de TVA | Taux TVA | Taux de taxe | Taux de TVA % | Taux d'imposition",
    "valid_from": "Valable à partir du | Valable dès le | Valable depuis | Valide à partir du | "
    "En vigueur à partir du | En vigueur depuis | À partir du | Valable à compter du | "
    "Date d'effet | Date d'entrée en vigueur | Applicable à partir du",
    "site": "Succursale | Salon | Établissement | Nom du salon",
    "time": "Heure | Horaire",
}

PARTICULAR = {
    "bookings": {
        "line": "Ligne | N° ligne | Numéro de ligne | Ligne n°",
        "starts_at": "Date et heure | Date/heure | Date heure | Date et heure de début | "
        "Date et heure du rendez-vous | Date et heure du RDV | Date/heure de début",
        "ends_at": "Date et heure de fin | Date/heure de fin",
        "day": "Date | Date du rendez-vous | Date du RDV | Date RDV | Date rendez-vous | Date de la visite | "
        "Date de visite",
        "start_time": "Heure | Heure de début | Heure début | Heure du rendez-vous | Heure du RDV | Heure RDV | "
        "Début heure",
        "end_time": "Heure de fin | Heure fin | Fin heure",
        "minutes": "Durée | Durée en minutes | Minutes | Nombre de minutes | Durée du rendez-vous | Durée du RDV",
        "status": "Statut | État | Statut du rendez-vous | Statut du RDV | État du rendez-vous",
        "price": "Prix | Tarif | Prix de la prestation | Prix avant remise | Tarif de la prestation",
        "booked_on": "Réservé le | Pris le | Rendez-vous pris le | RDV pris le | Date de prise de rendez-vous | "
        "Date de prise de RDV",
        "regrowth_mm": "Repousse | Repousse mm | Repousse en mm | Repousse des racines | Repousse mesurée | "
        "Racines (mm)",
    },
    "services": {
        "service": "Nom | Désignation | Intitulé",
        "kind": "Type | Genre | Catégorie | Type de prestation | Catégorie de prestation | Genre de prestation | "
        "Type de service",
        "price": "Prix | Tarif | Prix de la prestation | Tarif de la prestation",
        "hands_on_min": "Temps de travail | Temps de travail en minutes | Temps actif | Temps de main d'œuvre | "
        "Minutes de travail | Temps en main",
        "processing_min": "Temps de pose | Temps de pose en minutes | Pose | Durée de pose | Minutes de pose | "
        "Temps de pause | Durée de pause",
        "resets_roots": "Colore les racines | Couvre les racines | Racines colorées | Racines couvertes | "
        "Couvre la racine",
        "valid_from": "Valable dès",
    },
    "product_log": {
        "logged_at": "Date | Date et heure | Date/heure | Date heure | Mélangé le | Préparé le | Date du mélange | "
        "Date de mélange | Date de préparation",
        "stylist": "Mélangé par | Préparé par",
        "mixed_g": "Quantité mélangée | Mélangé | Préparé | Quantité préparée | Quantité (g) | Grammes mélangés | "
        "Poids mélangé | Grammes préparés",
        "left_g": "Reste | Restant | Quantité restante | Reste dans le bol | Grammes restants | Surplus | Reliquat | "
        "Poids restant",
        "time": "Heure du mélange | Heure de préparation | Heure de mélange",
    },
    "products": {
        "product": "Nom | Désignation | Intitulé",
        "kind": "Type | Genre | Catégorie | Type de produit | Catégorie de produit | Genre de produit | "
        "Famille de produits | Famille | Utilisation",
        "pack_g": "Contenance (g) | Contenu (g) | Poids net (g) | Conditionnement (g) | Poids (g) | "
        "Contenu de l'emballage (g) | Grammes par emballage | Poids par emballage | Grammes par unité | Poids net | "
        "Grammes par tube | Grammes par flacon",
        "pack_cost": "Prix d'achat | Prix d'achat HT | Coût d'achat | Coût d'achat HT | Prix d'achat net | "
        "Prix d'achat par emballage",
        "strength_percent": "Force | Force % | Concentration | Concentration % | Peroxyde % | Dosage | "
        "Eau oxygénée % | Titre (%) | H2O2",
    },
    "clients": {
        "client": "Nom",
        "phone": "Téléphone | Numéro de téléphone | N° téléphone | N° de téléphone | Tél | Portable | "
        "Téléphone portable | Mobile | Téléphone mobile | Numéro de portable | N° tél | N° portable",
        "email": "E-mail | Courriel | Adresse e-mail | Adresse mail | Mail | Adresse électronique | Adresse courriel",
        "may_contact": "Peut être contacté | Peut être contactée | Contact autorisé | Accord de contact | "
        "Autorisation de contact | Consentement au contact | Accepte d'être contacté",
        "natural_level": "Hauteur de ton naturelle | Niveau naturel | Base naturelle | Hauteur naturelle | "
        "Ton naturel niveau | Hauteur de ton nature | Ton naturel",
        "target_level": "Hauteur de ton souhaitée | Niveau souhaité | Hauteur souhaitée | Hauteur de ton visée | "
        "Niveau cible | Hauteur de ton cible | Ton souhaité | Hauteur visée | Ton visé",
        "grey_share": "Part de gris | Proportion de gris | Part de cheveux gris | Part de cheveux blancs | "
        "Proportion de cheveux blancs | Part de blancs | Cheveux blancs % | Blancs % | Taux de cheveux blancs | "
        "Pourcentage de cheveux blancs | Pourcentage de blancs",
        "patch_tested_on": "Test cutané | Date du test cutané | Test allergique | Date du test allergique | "
        "Test d'allergie | Date du test d'allergie | Touche d'essai | Date de la touche d'essai | "
        "Dernier test cutané | Test cutané le | Dernier test d'allergie",
    },
    "payments": {
        "paid_at": "Date | Date et heure | Date/heure | Date heure | Payé le | Date de paiement | Date du paiement | "
        "Date de règlement | Date du règlement | Réglé le",
        "method": "Mode de paiement | Mode de règlement | Moyen de paiement | Type de paiement | Moyen de règlement | "
        "Méthode de paiement | Payé par | Réglé par | Type de règlement",
        "amount": "Montant | Montant payé | Montant réglé | Montant du paiement | Montant du règlement | Somme | "
        "Montant reçu | Montant encaissé",
        "fee": "Frais | Commission | Frais de transaction | Frais bancaires | Frais de carte",
        "time": "Heure de paiement | Heure du paiement",
        "purpose": "Objet du paiement | Paiement pour | Motif du paiement",
        "voucher": "N° de bon | Numéro de bon | N° de bon cadeau | Numéro du bon cadeau",
    },
    "sales": {
        "sold_at": "Date | Date et heure | Date/heure | Date heure | Vendu le | Date de vente | Date de la vente",
        "quantity": "Quantité | Qté | Nombre | Pièces | Unités | Quantité vendue | Nombre de pièces | Nbre",
        "price": "Prix | Prix unitaire | Prix de vente | Prix à l'unité | Prix par pièce | PU | "
        "Prix de vente unitaire | P.U. | P.U. TTC",
        "stylist": "Vendu par | Vendeur | Vendeuse",
        "time": "Heure de vente | Heure de la vente",
    },
    "stock_moves": {
        "moved_at": "Date | Date et heure | Date/heure | Date heure | Date du mouvement | Date de mouvement",
        "movement": "Mouvement | Type de mouvement | Genre de mouvement | Nature du mouvement | Mouvement de stock | "
        "Opération",
        "packs": "Emballages | Nombre d'emballages | Paquets | Pièces | Unités | Nombre de pièces | "
        "Nombre d'unités | Quantité (pièces) | Nombre de tubes | Nombre de boîtes | Nombre de flacons",
        "grams": "Grammes | Poids | Poids (g) | Quantité (g)",
        "unit_cost": "Coût unitaire | Prix d'achat | Prix d'achat unitaire | Coût par emballage | Prix d'achat HT | "
        "Prix par boîte | Prix d'achat par boîte",
        "expires_on": "Date de péremption | Date d'expiration | Péremption | À utiliser avant | "
        "Date limite d'utilisation | À utiliser avant le | Périme le",
    },
    "vouchers": {
        "number": "Bon | Bon cadeau | N° de bon | Numéro de bon | N° de bon cadeau | Numéro du bon cadeau",
        "sold_on": "Vendu le | Date de vente | Émis le | Date d'émission",
        "face": "Valeur nominale | Valeur du bon | Valeur",
        "paid": "Payé | Montant payé | Prix de vente | Prix",
        "expires_on": "Expire le | Date d'expiration | Valable jusqu'au | Date limite",
        "used": "Utilisé | Montant utilisé | Consommé",
    },
}

# Words that stand for a column only where no other heading does, as each can mean something else beside one.
STAND_INS = {
    "day": "Jour",
    "amount": "Montant",
    "booked": "Date de réservation",
    "description": "Libellé | Description | Désignation",
}

# Words for the start and end of a booking: with the day in a column apart they are times, without it moments.
STARTS = "Début | Début du rdv | Début du rendez-vous | Commencement | Début rdv"
ENDS = "Fin | Fin du rdv | Fin rdv | Fin du rendez-vous"
HALF_NAMES = "Prénom | Nom de famille"
# A sheet with one of these is about buying, not about clients, sales or takings, whatever else it says.
BUYING = "Fournisseur | Fournisseurs | Commande | Commandes | Achats | Dépenses"

VALUES = {
    "status": {
        "completed": "terminé | terminée | effectué | effectuée | réalisé | réalisée | honoré | fait | venu | venue",
        "booked": "réservé | réservée | confirmé | confirmée | prévu | prévue | planifié | planifiée",
        "cancelled": "annulé | annulée | annulation | décommandé",
        "no_show": "absent | absente | non venu | non venue | pas venu | pas venue | non honoré | "
        "ne s'est pas présenté | ne s'est pas présentée | rendez-vous manqué | non présenté | non présentée | "
        "pas présenté",
    },
    "services.kind": {
        "root_touch_up": "racines | coloration racines | coloration des racines | retouche racines | "
        "retouche des racines | couleur racines | repousse | racine",
        "full_colour": "coloration complète | couleur complète | coloration totale | coloration tête entière | "
        "coloration globale",
        "lightening": "décoloration | mèches | balayage | éclaircissement | méchage | reflets éclaircis",
        "toner": "patine | toner | tonalisation | ton sur ton",
        "cut": "coupe | coupe de cheveux",
        "styling": "brushing | coiffage | mise en plis | chignon | séchage",
        "treatment": "soin | soins | soin capillaire | masque capillaire | soin profond",
        "other": "autre | autres | divers",
    },
    "products.kind": {
        "colour": "couleur | coloration | teinture | coloration capillaire",
        "developer": "oxydant | révélateur | eau oxygénée | peroxyde",
        "lightener": "décolorant | poudre décolorante | poudre de décoloration | crème décolorante | éclaircissant | "
        "décoloration",
        "additive": "additif | adjuvant | additifs",
        "retail": "revente | vente | produit de revente | produit à vendre | vente au détail | détail",
    },
    "purpose": {
        "visit": "visite | rendez-vous | prestation",
        "deposit": "acompte | arrhes | avance",
        "voucher": "bon vendu | vente de bon | bon cadeau",
    },
    "method": {
        "cash": "espèces | comptant | liquide | en espèces | argent liquide",
        "card": "carte | carte bancaire | CB | carte de crédit | carte de débit | carte bleue | par carte",
        "bank": "banque | virement | virement bancaire | prélèvement",
        "voucher": "bon cadeau | chèque cadeau | carte cadeau | bon d'achat",
        "other": "autre | autres | divers",
    },
    "movement": {
        "delivery": "livraison | livré | livrée | réception | reçu | entrée de marchandises | entrée",
        "count": "inventaire | comptage | compté | comptée",
        "returned": "retour | retourné | renvoyé | retour fournisseur",
        "discarded": "jeté | jetée | mis au rebut | éliminé | détruit | rebut",
    },
    "yes_no": {"yes": "oui | o | vrai", "no": "non | n | faux"},
}

TOTALS = "total | totaux | sous-total | total général | somme | total global"

TABLES = {
    "bookings": "rendez-vous | rdv | réservations | agenda",
    "services": "prestations | services | carte des prestations | tarifs",
    "product_log": "mélanges | journal des mélanges | fiche de mélange | bols | cahier de mélanges",
    "products": "produits | articles | liste des produits",
    "clients": "clients | clientes | fichier clients | clientèle",
    "payments": "paiement | paiements | règlements | caisse | encaissements",
    "sales": "vente | ventes | reventes",
    "stock_moves": "stock | stocks | mouvements de stock | livraisons | inventaire",
    "vouchers": "bons | bons cadeaux | bon cadeau | registre des bons",
}
