"""What is read in photographs of labels: character error rate and exact stock numbers, on labels drawn by us. Prints,
never fails. Needs the extra `ocr`.

Run from the project's folder: `.venv/bin/python -m tests.benchmarks.label_photographs [labels of each kind]`.
"""

import sys
import time

from rapidfuzz.distance import Levenshtein

from identification.labels_on_pages.photograph_child import read, reader
from identification.labels_on_pages.photograph_lines import lines_of
from tests.drawn_labels import KINDS, a_cat, drawn_label, encoded, nothing_on_it


def main(how_many: int) -> None:
    reads = reader()
    print(f"{how_many} drawn labels of each kind: wrong characters of 100; stock numbers, lines exact; CPU s each")
    print("sure: labels without a line that the page calls doubtful, and how many of those had a wrong character")
    for kind in KINDS:
        wrong = characters = numbers = exact = lines_in_all = sure = sure_and_wrong = 0
        start = time.process_time()
        for seed in range(how_many):
            drawn = drawn_label(kind, seed)
            lines = lines_of(read(reads, encoded(drawn.picture)))
            text = "\n".join(line.text for line in lines)
            off = Levenshtein.distance(drawn.text, text)
            wrong, characters = wrong + off, characters + len(drawn.text)
            numbers += drawn.number in text.split("\n")
            wanted = drawn.text.split("\n")
            exact, lines_in_all = exact + len(set(wanted) & set(text.split("\n"))), lines_in_all + len(wanted)
            if lines and not any(line.is_doubtful for line in lines):
                sure += 1
                sure_and_wrong += off > 0
        taken = (time.process_time() - start) / how_many
        print(
            f"  {kind:24}{100 * wrong / characters:6.1f}   {numbers:3} of {how_many}"
            f"   {exact:3} of {lines_in_all}   {taken:5.2f}   sure {sure}, of these wrong {sure_and_wrong}"
        )
    for name, picture in (("cloth without a letter", nothing_on_it()), ("a cat", a_cat())):
        print(f"  {name}: {[line.text for line in lines_of(read(reads, encoded(picture)))]}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 16)
