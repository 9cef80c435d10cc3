"""A law's own code, for showing beside its formula."""

import ast
import inspect
import textwrap

from IPython.display import Markdown


def law_code(law):
    """The body of a law as the library runs it, without its docstring.

    Parameters
    ----------
    law : function

    Returns
    -------
    IPython.display.Markdown
        One block of Python.
    """
    lines = textwrap.dedent(inspect.getsource(law)).splitlines()
    function = ast.parse("\n".join(lines)).body[0]
    head = lines[:function.body[0].lineno - 1]
    body = lines[function.body[1].lineno - 1:] if ast.get_docstring(function) else lines[function.body[0].lineno - 1:]
    return Markdown("```python\n" + "\n".join([*head, *body]) + "\n```")
