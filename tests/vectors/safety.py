"""Outside numbers for the safety tables: molar masses of an independent library, and the directive's table applied anew.

Run: pip install molmass==2026.1.8; python tests/vectors/safety.py > tests/vectors/safety.csv
"""
from decimal import ROUND_CEILING, Decimal

from molmass import Formula


def mass(formula: str) -> float:
    return Formula(formula).mass


# What counts of a salt or ester: (key, what counts, formula of what is weighed), in percent.
FACTORS = [
    ("sodium-benzoate", "C7H6O2", "C7H5NaO2"),
    ("benzoates-other", "C7H6O2", "C7H5KO2"),
    ("potassium-sorbate", "C6H8O2", "C6H7KO2"),
    ("sodium-sorbate", "C6H8O2", "C6H7NaO2"),
    ("sodium-dehydroacetate", "C8H8O4", "C8H7NaO4"),
    ("sodium-salicylate", "C7H6O3", "C7H5NaO3"),
    ("methylparaben", "C7H6O3", "C8H8O3"),
    ("ethylparaben", "C7H6O3", "C9H10O3"),
    ("propylparaben", "C7H6O3", "C10H12O3"),
    ("butylparaben", "C7H6O3", "C11H14O3"),
    ("Retinyl Palmitate", "C20H30O", "C36H60O2"),
    ("Retinyl Acetate", "C20H30O", "C22H32O2"),
    ("Sodium Salicylate", "C7H6O3", "C7H5NaO3"),
    ("Zinc Sulfate", "Zn", "ZnSO4H14O7"),
    ("Zinc Chloride", "Zn", "ZnCl2"),
    ("Zinc PCA", "Zn", "C10H12N2O6Zn"),
]

# Formaldehyde that a releaser can set free: (name, how many, formula).
RELEASERS = [
    ("DMDM Hydantoin", 2, "C7H12N2O4"),
    ("Diazolidinyl Urea", 4, "C8H14N4O7"),
    ("Imidazolidinyl Urea", 4, "C11H16N8O8"),
    ("Sodium Hydroxymethylglycinate", 1, "C3H6NNaO3"),
]

# Directive 76/211/EEC Annex I 2.4: (above, up to and with, percent or None, amount or None).
TOLERANCES = [
    (5, 50, "9", None), (50, 100, None, "4.5"), (100, 200, "4.5", None), (200, 300, None, "9"),
    (300, 500, "3", None), (500, 1000, None, "15"), (1000, 10000, "1.5", None),
]


def tolerable(nominal: Decimal) -> Decimal:
    for low, high, percent, amount in TOLERANCES:
        if nominal <= high and (nominal > low or low == 5):
            if amount:
                return Decimal(amount)
            exact = nominal * Decimal(percent) / 100
            return (exact * 10).to_integral_value(ROUND_CEILING) / 10
    raise ValueError(nominal)


print("kind,key,value")
for key, counts, whole in FACTORS:
    print(f"factor,{key},{100 * mass(counts) / mass(whole):.4f}")
for key, count, whole in RELEASERS:
    print(f"releaser,{key},{100 * count * mass('CH2O') / mass(whole):.4f}")
for nominal in "5 7.5 10 15 20 25 28.4 30 40 50 50.1 60 75 90 100 101 118 125 150 199 200 225 250 300 340 400 500 501 750 1000 1001 1500 2000 5000 10000".split():
    print(f"tolerance,{nominal},{tolerable(Decimal(nominal))}")
for nominal in "5 15 30 50 75 100 118 150 200 250 340 400 500 750 1000 2000 5000".split():
    # Few packs may be one tolerable error below, none two.
    error = tolerable(Decimal(nominal))
    print(f"few,{nominal},{Decimal(nominal) - error}")
    print(f"none,{nominal},{Decimal(nominal) - 2 * error}")
