"""Makes ph.csv: the pH of mixtures by two libraries that know nothing of this project's solver.

PHREEQC 3 (USGS) through phreeqpython, on a data base written here that holds nothing but the constants under test and the
law of Davies; and pHcalc, which reckons without activities. Constants come from src/facts/data/acids.csv.

    pip install phreeqpython==1.6.2 pHcalc==0.2.0 numpy scipy
    python tests/vectors/ph.py > tests/vectors/ph.csv
"""

import csv
import pathlib
import sys
import tempfile
import warnings

import numpy

warnings.filterwarnings("ignore")
numpy.cumproduct = numpy.cumprod  # pHcalc 0.2.0 is older than numpy 2

import pHcalc  # noqa: E402
from phreeqpython import PhreeqPython  # noqa: E402

PKW = 13.995
HERE = pathlib.Path(__file__).parent
TABLE = {row["id"]: row for row in csv.DictReader(open(HERE / "../../src/facts/data/acids.csv"))}
IONS = {"Na": 1, "K": 1, "Cl": -1}

# mol per kg of water at 25 degrees; salts as their acid and the ion that comes with it.
RECIPES = """
citric-acid 0.01
citric-acid 0.005205
lactic-acid 0.1
glycolic-acid 0.05
acetic-acid 0.1; Na 0.05
benzoic-acid 0.0347; Na 0.0347
benzoic-acid 0.0347; citric-acid 0.005205; Na 0.0347
benzoic-acid 0.0347; sorbic-acid 0.01997; citric-acid 0.013012; Na 0.0347; K 0.01997
dehydroacetic-acid 0.0263; lactic-acid 0.0111; Na 0.0263
levulinic-acid 0.03; anisic-acid 0.005; Na 0.03
citric-acid 0.02; Na 0.03
citric-acid 0.02; Na 0.05
malic-acid 0.01; Na 0.015
tartaric-acid 0.01; Na 0.01
succinic-acid 0.02; Na 0.03
phosphoric-acid 0.05; Na 0.075
phosphoric-acid 0.01; Na 0.005
triethanolamine 0.05; lactic-acid 0.04
tromethamine 0.05; Cl 0.025
aminomethylpropanol 0.01; citric-acid 0.003
arginine 0.02; citric-acid 0.01
niacinamide 0.3; citric-acid 0.005
carbonic-acid 0.01; Na 0.01
carbonic-acid 0.01; citric-acid 0.002; Na 0.01
gluconic-acid 0.05; Na 0.025
ascorbic-acid 0.1; Na 0.05
propionic-acid 0.05; Na 0.02
salicylic-acid 0.03; Na 0.028
Cl 0.001
Na 0.001
"""


def parse(line):
    parts = [part.strip().split() for part in line.split(";")]
    return {name: float(amount) for name, amount in parts}


def pkas(name):
    return [float(value) for value in TABLE[name]["pka"].split(";")]


def charge(z):
    if z == 0:
        return ""
    return f"{z:+d}" if abs(z) > 1 else ("+" if z > 0 else "-")


def element(name):
    """PHREEQC wants names of one capital and small letters."""
    return "X" + "".join(c for c in name if c.isalpha())[:12].lower()


def database(names):
    master = ["SOLUTION_MASTER_SPECIES", "H H+ -1 H 1.008", "H(0) H2 0 H", "H(1) H+ -1 0", "E e- 0 0 0",
              "O H2O 0 O 15.999", "O(0) O2 0 O", "O(-2) H2O 0 0", "Na Na+ 0 Na 22.99", "K K+ 0 K 39.098",
              "Cl Cl- 0 Cl 35.45", "Xal Xal-2 1 50.05 50.05", "Alkalinity Xal-2 1 50.05 50.05"]
    species = ["SOLUTION_SPECIES", "H+ = H+", " log_k 0", "e- = e-", " log_k 0", "H2O = H2O", " log_k 0",
               "Na+ = Na+", " log_k 0", "K+ = K+", " log_k 0", "Cl- = Cl-", " log_k 0", "Xal-2 = Xal-2", " log_k 0",
               "H2O = OH- + H+", f" log_k {-PKW}", "2 H2O = O2 + 4 H+ + 4 e-", " log_k -86.08",
               "2 H+ + 2 e- = H2", " log_k -3.15"]
    for name in names:
        constants = pkas(name)
        bare = int(TABLE[name]["charge"]) - len(constants)
        base = element(name) + charge(bare)
        master.append(f"{element(name)} {base} 0 {element(name)} 100")
        species += [f"{base} = {base}", " log_k 0"] + ([" -gamma 1 0"] if bare == 0 else [])
        total = 0.0
        for k, constant in enumerate(reversed(constants), 1):
            total += constant
            product = f"{element(name)}H{k if k > 1 else ''}{charge(bare + k)}"
            species += [f"{base} + {k} H+ = {product}", f" log_k {total:.6f}"]
            if bare + k == 0:
                species.append(" -gamma 1 0")
    return "\n".join(master + species + ["END", ""])


def phreeqc(recipes):
    names = sorted({name for recipe in recipes for name in recipe if name not in IONS})
    folder = pathlib.Path(tempfile.mkdtemp())
    (folder / "own.dat").write_text(database(names))
    engine = PhreeqPython(database="own.dat", database_directory=folder)
    for recipe in recipes:
        lines = ["SOLUTION 1", " units mol/kgw", " temp 25", " pH 7 charge"]
        lines += [f" {name if name in IONS else element(name)} {amount:.10g}" for name, amount in recipe.items()]
        lines += ["SELECTED_OUTPUT", " -reset false", " -pH true", " -high_precision true", "END", ""]
        engine.ip.run_string("\n".join(lines))
        table = engine.ip.get_selected_output_array()
        yield float(table[-1][table[0].index("pH")])


def ideal(recipe):
    kinds = [pHcalc.Inert(charge=IONS[name], conc=amount) if name in IONS else
             pHcalc.Acid(pKa=pkas(name), charge=int(TABLE[name]["charge"]), conc=amount)
             for name, amount in recipe.items()]
    system = pHcalc.System(*kinds)
    system.Kw = 10**-PKW
    system.pHsolve(guess_est=True, tol=1e-12)
    return float(system.pH)


def main():
    lines = [line for line in RECIPES.strip().splitlines() if line]
    recipes = [parse(line) for line in lines]
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(["recipe", "phreeqc_davies", "phcalc_ideal"])
    for line, recipe, davies in zip(lines, recipes, phreeqc(recipes)):
        out.writerow([line, f"{davies:.4f}", f"{ideal(recipe):.4f}"])


main()
