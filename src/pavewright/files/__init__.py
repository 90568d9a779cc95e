"""Files in and out: points, drawings, surveys, clouds and price lists of other instruments and programs.

They are taken over only as far as they say what they are: the order of columns, the layers and a unit that a file does
not tell are asked, never guessed. What cannot be read is refused with the place and what to do; nothing is taken over
in part.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.files._aligned import Alignment, aligned, level_near
    from pavewright.files._apart import file_told
    from pavewright.files._clouds import CloudSurface, from_bytes, read_las, read_ply, thinned
    from pavewright.files._csv_points import ORDERS, first_lines, read_csv_points, write_csv_points
    from pavewright.files._dxf import dxf_layers, read_dxf, write_dxf_points
    from pavewright.files._foreign import file_here
    from pavewright.files._geojson import read_geojson
    from pavewright.files._landxml import read_landxml
    from pavewright.files._price_goods import ListedPrice
    from pavewright.files._price_how import ListColumns
    from pavewright.files._price_list import PriceList, price_list_told, read_price_list
    from pavewright.files._read import TO_MM, FileRefusedError, ReadDrawing, ReadLine, ReadPoint
    from pavewright.files._record_file import RecordFileRefusedError, inner_pdf, record_files
    from pavewright.files._weather_csv import BadLine, DailyWeather, read_weather_csv
    from pavewright.files._xyz import XYZ_ORDERS, read_xyz
else:
    __getattr__ = face(__name__)

__all__ = [
    "ORDERS",
    "TO_MM",
    "XYZ_ORDERS",
    "Alignment",
    "BadLine",
    "CloudSurface",
    "DailyWeather",
    "FileRefusedError",
    "ListColumns",
    "ListedPrice",
    "PriceList",
    "ReadDrawing",
    "ReadLine",
    "ReadPoint",
    "RecordFileRefusedError",
    "aligned",
    "dxf_layers",
    "file_here",
    "file_told",
    "first_lines",
    "from_bytes",
    "inner_pdf",
    "level_near",
    "price_list_told",
    "read_csv_points",
    "read_dxf",
    "read_geojson",
    "read_landxml",
    "read_las",
    "read_ply",
    "read_price_list",
    "read_weather_csv",
    "read_xyz",
    "record_files",
    "thinned",
    "write_csv_points",
    "write_dxf_points",
]
