"""Printed arithmetic worked out again from its own characters: no engine in it, only a reader of numbers and signs."""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable

_CALLS: dict[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "sqrt": math.sqrt,
    "ln": math.log,
    "abs": abs,
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "sin": lambda degrees: math.sin(math.radians(degrees)),
}
_SIGNS: dict[type, Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


def said_not_worked(numbers: str) -> bool:
    """True where a line says that its result is given, read off a table or map, or integrated."""
    return numbers.startswith(("given", "read", "integrated"))


def worked_out(numbers: str) -> float:
    """The value of printed arithmetic; what stands behind a semicolon is words."""
    text = numbers.partition(";")[0].replace("−", "-").replace("×", "x").replace("^", "**")
    text = re.sub(r"\|([^|]*)\|", r"abs(\1)", text)
    text = re.sub(r"(?<![A-Za-z])x(?![A-Za-z])", "*", text)
    return float(_value(ast.parse(text.strip(), mode="eval").body))


def _value(node: ast.AST) -> float:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return node.value
    if isinstance(node, ast.BinOp):
        return _SIGNS[type(node.op)](_value(node.left), _value(node.right))
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -_value(node.operand)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return float(_CALLS[node.func.id](*(_value(one) for one in node.args)))
    raise ValueError(f"not arithmetic: {ast.dump(node)}")
