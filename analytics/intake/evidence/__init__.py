"""What the words and the values of all sheets say together: which table each is, which column each heading means.

A sheet of which the word lists know all that the contract needs is read by words, and values are asked of its open
headings alone. Of any other, each heading and column get points from words and values, and the best one-to-one
assignment counts where every pair of it is 2.5 points better than the best without it (evidence/assign). Words of a
heading that are only like listed ones need values that agree. A sheet is a table only if its name, two headings or
values that no other table has say so. What was made is in the book's table `made`; a status that was made is worked
out for the day a salon is opened on, so that the book does not depend on the day it was loaded.
"""
